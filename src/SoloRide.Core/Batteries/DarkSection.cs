using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>A stretch in the dark with the light that it needs.</summary>
/// <remarks>Immutable.</remarks>
public sealed record DarkSection
{
    private readonly double _fluxLm;
    private readonly double _peakCd;

    /// <summary>How long it lasts; above 0, at most 31 days.</summary>
    public required TimeSpan Duration
    {
        get;
        init => field = value > TimeSpan.Zero && value <= TimeSpan.FromDays(31)
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Duration), value, "Duration must be above 0 and at most 31 days.");
    }

    /// <summary>Least light output; 0 lm (any lit mode) unless stated.</summary>
    public LuminousFlux NeededFlux
    {
        get => LuminousFlux.FromLumens(_fluxLm);
        init => _fluxLm = Guard.InRange(value.Lumens, 0, 100_000, "lm", nameof(NeededFlux));
    }

    /// <summary>Least peak intensity, as from <see cref="LampPlanner.PeakNeeded"/>; 0 cd unless stated.</summary>
    public LuminousIntensity NeededPeak
    {
        get => LuminousIntensity.FromCandela(_peakCd);
        init => _peakCd = Guard.InRange(value.Candela, 0, 1e9, "cd", nameof(NeededPeak));
    }

    /// <summary>What more light is worth here against other sections; above 0, 1 unless stated.</summary>
    public double WeightFactor { get; init => field = Guard.InRange(value, 0.001, 1000, "(factor)", nameof(WeightFactor)); } = 1;

    internal double FluxLm => _fluxLm;

    internal double PeakCd => _peakCd;
}
