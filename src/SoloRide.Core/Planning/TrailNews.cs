using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Where and when the rider is, and what is left: what a plan is made anew from on the trail.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TrailNews
{
    private readonly double _alongM;
    private readonly double _waterL = double.NaN;

    /// <summary>Distance along the planned route.</summary>
    public required Length AlongRoute
    {
        get => Length.FromMeters(_alongM);
        init => _alongM = Guard.NotNegative(value.Meters, "m", nameof(AlongRoute));
    }

    /// <summary>When.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Water in hand; null: as planned, which is a guess and gives a finding.</summary>
    public Volume? WaterInHand
    {
        get => Si.Volume(_waterL);
        init => _waterL = value is { } v ? Guard.InRange(v.Liters, 0, 60, "L", nameof(WaterInHand)) : double.NaN;
    }

    /// <summary>Time stood still so far; null: the planned share of the elapsed time.</summary>
    public TimeSpan? Stopped { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(Stopped)) : null; }

    /// <summary>Sources ahead of which it is now known whether they hold water.</summary>
    public IReadOnlyDictionary<string, Known> SourcesNow { get; init => field = Guard.NotNull(value, nameof(SourcesNow)); } = new Dictionary<string, Known>();
}
