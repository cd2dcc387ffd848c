using SoloRide.Escape;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A ford that is crossed on the way out and again on the way back, while the river rises.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FordAhead
{
    private readonly double _alongM;
    private readonly double _backM = double.NaN;
    private readonly double _depthM;
    private readonly double _speedMps;
    private readonly double _depthRise;
    private readonly double _speedRise;

    /// <summary>Name.</summary>
    public required string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); }

    /// <summary>First crossing, from the start of the route.</summary>
    public required Length AlongRoute { get => Length.FromMeters(_alongM); init => _alongM = Guard.NotNegative(value.Meters, "m", nameof(AlongRoute)); }

    /// <summary>Crossing on the way back, from the start of the route; null when it is crossed once.</summary>
    public Length? Return
    {
        get => double.IsNaN(_backM) ? null : Length.FromMeters(_backM);
        init => _backM = value is { } v ? Guard.NotNegative(v.Meters, "m", nameof(Return)) : double.NaN;
    }

    /// <summary>When depth and speed were seen or are expected.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Depth then, where it is deepest on the way over; 0 m or more.</summary>
    public required Length Depth { get => Length.FromMeters(_depthM); init => _depthM = Guard.NotNegative(value.Meters, "m", nameof(Depth)); }

    /// <summary>Speed of the water then; 0 m/s or more.</summary>
    public required Speed WaterSpeed { get => Speed.FromMetersPerSecond(_speedMps); init => _speedMps = Guard.NotNegative(value.MetersPerSecond, "m/s", nameof(WaterSpeed)); }

    /// <summary>Rise of the depth in an hour, from rain or melting snow; negative when it falls.</summary>
    public Length DepthRisePerHour { get => Length.FromMeters(_depthRise); init => _depthRise = Guard.Finite(value.Meters, "m per h", nameof(DepthRisePerHour)); }

    /// <summary>Rise of the speed in an hour; negative when it falls.</summary>
    public Speed SpeedRisePerHour { get => Speed.FromMetersPerSecond(_speedRise); init => _speedRise = Guard.Finite(value.MetersPerSecond, "m/s per h", nameof(SpeedRisePerHour)); }

    /// <summary>From when on the ford must not be crossed: the first time that a limit is met; null when none is met within ten days.</summary>
    public DateTimeOffset? LatestCrossing => Reached(FordVerdict.DoNotCross);

    /// <summary>From when on crossing alone is doubtful; null when it does not become so within ten days.</summary>
    public DateTimeOffset? DoubtfulFrom => Reached(FordVerdict.Doubtful);

    /// <summary>The ford as clocks of a plan: one a crossing.</summary>
    /// <returns>One or two clocks.</returns>
    public IReadOnlyList<Deadline> ToDeadlines()
        => Return is { } back
            ? [new Deadline(DeadlineKind.Ford, Name, AlongRoute, AlongRoute, LatestCrossing), new Deadline(DeadlineKind.Ford, Name + " on the way back", back, back, LatestCrossing)]
            : [new Deadline(DeadlineKind.Ford, Name, AlongRoute, AlongRoute, LatestCrossing)];

    private DateTimeOffset? Reached(FordVerdict verdict)
        => FordLimit.TimeUntil(verdict, Depth, WaterSpeed, DepthRisePerHour, SpeedRisePerHour) is { } t ? At + t : null;
}
