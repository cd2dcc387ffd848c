using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>What a lamp mode gives, as printed by its maker under the portable-lighting standard.</summary>
/// <remarks>Immutable.</remarks>
public sealed record LampOutput
{
    private readonly double _fluxLm;
    private readonly double _peakCd;

    /// <summary>Makes an output.</summary>
    /// <param name="fluxLm">[lm, above 0 to 100 000] Light output.</param>
    /// <param name="peakCd">[cd, above 0 to 10 000 000] Peak intensity; the printed beam distance is 2·√cd metres.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public LampOutput(double fluxLm, double peakCd)
    {
        _fluxLm = Guard.InRange(fluxLm, 0.01, 100_000, "lm");
        _peakCd = Guard.InRange(peakCd, 0.01, 10_000_000, "cd");
    }

    /// <summary>Light output.</summary>
    public LuminousFlux Flux => LuminousFlux.FromLumens(_fluxLm);

    /// <summary>Peak intensity of the beam.</summary>
    public LuminousIntensity PeakIntensity => LuminousIntensity.FromCandela(_peakCd);

    /// <summary>Where the beam still gives 0.25 lx, about a clear full moon: the printed beam distance.</summary>
    public Length BeamDistance => Length.FromMeters(LampKernel.BeamDistanceM(_peakCd));

    /// <summary>Runtime printed by the maker, from 30 s after switching on to a tenth of that output; null when unknown.</summary>
    public TimeSpan? PrintedRuntime { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(PrintedRuntime)) : null; }

    /// <summary>Whether the lamp holds its output or steps down; the printed runtime of a lamp that steps down is not time at the printed output.</summary>
    public LampRegulation Regulation { get; init => field = Guard.Defined(value, nameof(Regulation)); } = LampRegulation.Unknown;

    internal double FluxLm => _fluxLm;

    internal double PeakCd => _peakCd;

    /// <summary>From the printed beam distance.</summary>
    /// <param name="flux">Light output, above 0.</param>
    /// <param name="beamDistance">Printed beam distance, above 0.</param>
    /// <returns>The output with the intensity that the distance stands for.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static LampOutput FromBeamDistance(LuminousFlux flux, Length beamDistance)
    {
        double m = Guard.Positive(beamDistance.Meters, "m", nameof(beamDistance));
        return new LampOutput(flux.Lumens, LampKernel.PeakCdFromBeamDistance(m));
    }
}
