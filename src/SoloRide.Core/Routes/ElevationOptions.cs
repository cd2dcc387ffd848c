using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>How an elevation profile is made.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ElevationOptions
{
    private readonly double _smoothingM = double.NaN;

    internal static ElevationOptions Default { get; } = new();

    /// <summary>Where the heights come from; recognised from the data unless stated.</summary>
    public HeightSource Source { get; init => field = Guard.Defined(value, nameof(Source)); } = HeightSource.Recognised;

    /// <summary>
    /// Standard deviation of the Gaussian that smooths the heights over distance, 2 to 1 000 m; null to choose it for the source.
    /// With a stated length the ascent is the plain sum of rises at that scale and its interval is wide.
    /// </summary>
    public Length? Smoothing
    {
        get => Si.Length(_smoothingM);
        init => _smoothingM = value is { } v ? Guard.InRange(v.Meters, 2, 1000, "m", nameof(Smoothing)) : double.NaN;
    }

    /// <summary>How often the ranges of ascent and descent hold the truth [share of 1, 0.5 to 0.95]; 0.8 (P10 to P90) unless stated.</summary>
    public double IntervalLevel { get; init => field = Guard.InRange(value, 0.5, 0.95, "(a share of 1)", nameof(IntervalLevel)); } = 0.8;

    internal double SmoothingM => _smoothingM;
}
