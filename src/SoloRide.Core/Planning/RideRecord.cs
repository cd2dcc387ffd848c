using SoloRide.Internal;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>What happened on a ride, as the rider noted it; everything but the end may be missing.</summary>
/// <remarks>Immutable. Nothing in it is stored or sent anywhere.</remarks>
public sealed record RideRecord
{
    private readonly double _drunkL = double.NaN;

    /// <summary>When the ride ended.</summary>
    public required DateTimeOffset Finished { get; init; }

    /// <summary>When the ride began; null: as planned.</summary>
    public DateTimeOffset? Started { get; init; }

    /// <summary>Stations passed, by their names in the plan, with the time.</summary>
    public IReadOnlyList<(string Station, DateTimeOffset At)> Passed { get; init => field = [.. Guard.NotNull(value, nameof(Passed))]; } = [];

    /// <summary>Time stood still; null: the planned share of the whole time.</summary>
    public TimeSpan? Stopped { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(Stopped)) : null; }

    /// <summary>What broke, and how often.</summary>
    public IReadOnlyDictionary<FailureKind, int> Failures { get; init => field = Guard.NotNull(value, nameof(Failures)); } = new Dictionary<FailureKind, int>();

    /// <summary>Things of the kit that were used up or lost, by their names.</summary>
    public IReadOnlyList<string> Used { get; init => field = [.. Guard.NotNull(value, nameof(Used))]; } = [];

    /// <summary>Water drunk [0 to 60 L]; null when not noted.</summary>
    public Volume? Drunk
    {
        get => Si.Volume(_drunkL);
        init => _drunkL = value is { } v ? Guard.InRange(v.Liters, 0, 60, "L", nameof(Drunk)) : double.NaN;
    }

    /// <summary>Body mass before and after, on the same scale; null when not weighed.</summary>
    public (Mass Before, Mass After)? Weighed { get; init; }

    /// <summary>Charge left at the end by device [share of 1].</summary>
    public IReadOnlyDictionary<string, double> ChargeLeftFraction { get; init => field = Guard.NotNull(value, nameof(ChargeLeftFraction)); } = new Dictionary<string, double>();
}
