using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What a reserve touches besides time: the hour of dusk, the water drunk, and rates of events that only the caller can know.</summary>
/// <remarks>Everything may be left out; what is missing is not answered. Immutable.</remarks>
public sealed record ReserveStakes
{
    private readonly double _waterLPerH = double.NaN;
    private readonly double _waterWithLPerH = double.NaN;

    /// <summary>From the start to dusk, or to another hour by which the way should be done, 0 to 240 h; null: not asked.</summary>
    public TimeSpan? UntilDusk
    {
        get;
        init => field = value is { } t ? TimeSpan.FromHours(Guard.InRange(t.TotalHours, 0, 240, "h", nameof(UntilDusk))) : null;
    }

    /// <summary>Water needed for each hour from start to end with nothing left unused, 0 to 5 L/h; null: not asked.</summary>
    public VolumeFlow? WaterRate
    {
        get => double.IsNaN(_waterLPerH) ? null : VolumeFlow.FromLitersPerHour(_waterLPerH);
        init => _waterLPerH = value is { } v ? Guard.InRange(v.LitersPerHour, 0, 5, "L/h", nameof(WaterRate)) : double.NaN;
    }

    /// <summary>The same with the reserve, 0 to 5 L/h: less power is less sweat; null: taken as equal, which errs on the side of more water.</summary>
    public VolumeFlow? WaterRateWithReserve
    {
        get => double.IsNaN(_waterWithLPerH) ? null : VolumeFlow.FromLitersPerHour(_waterWithLPerH);
        init => _waterWithLPerH = value is { } v ? Guard.InRange(v.LitersPerHour, 0, 5, "L/h", nameof(WaterRateWithReserve)) : double.NaN;
    }

    /// <summary>Injuries for each hour in motion with the reserve, over those without [factor, 0.01 to 100]; null: nothing is claimed.</summary>
    /// <remarks>No published figure is known: the library never fills this in.</remarks>
    public double? InjuryRateFactor { get; init => field = value is { } v ? Guard.InRange(v, 0.01, 100, "(factor)", nameof(InjuryRateFactor)) : null; }

    /// <summary>Breakages for each kilometre ridden with the reserve, over those without [factor, 0.01 to 100]; null: nothing is claimed.</summary>
    /// <remarks>No published figure is known: the library never fills this in.</remarks>
    public double? BreakageRateFactor { get; init => field = value is { } v ? Guard.InRange(v, 0.01, 100, "(factor)", nameof(BreakageRateFactor)) : null; }

    internal double WaterLPerH => _waterLPerH;

    internal double WaterWithLPerH => double.IsNaN(_waterWithLPerH) ? _waterLPerH : _waterWithLPerH;
}
