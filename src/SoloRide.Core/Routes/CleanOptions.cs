using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>What to mend in a route and from where on something counts as wrong.</summary>
/// <remarks>Immutable.</remarks>
[Source("assumption-routes-clean", "limits of speed, grade and stops")]
public sealed record CleanOptions
{
    private readonly double _speedMps = 35;
    private readonly double _radiusM = 15;

    internal static CleanOptions Default { get; } = new();

    /// <summary>What to mend; all unless stated.</summary>
    public CleanKinds Kinds { get; init; } = CleanKinds.All;

    /// <summary>A point reached and left faster than this is a spike; 5 to 300 m/s, 35 m/s unless stated.</summary>
    public Speed MaxSpeed
    {
        get => Speed.FromMetersPerSecond(_speedMps);
        init => _speedMps = Guard.InRange(value.MetersPerSecond, 5, 300, "m/s", nameof(MaxSpeed));
    }

    /// <summary>A stop stays within this distance of its first point; 1 to 100 m, 15 m unless stated.</summary>
    public Length StopRadius
    {
        get => Length.FromMeters(_radiusM);
        init => _radiusM = Guard.InRange(value.Meters, 1, 100, "m", nameof(StopRadius));
    }

    /// <summary>A stop lasts at least this long; 10 s to 1 day, 60 s unless stated.</summary>
    public TimeSpan StopTime { get; init => field = value >= TimeSpan.FromSeconds(10) && value <= TimeSpan.FromDays(1) ? value : throw new ArgumentOutOfRangeException(nameof(StopTime), value, "StopTime must be 10 s to 1 day."); } = TimeSpan.FromSeconds(60);

    internal double SpeedMps => _speedMps;

    internal double RadiusM => _radiusM;
}
