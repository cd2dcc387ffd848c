using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Limits and switches of the ledger; each default has a published source.</summary>
/// <remarks>Immutable.</remarks>
public sealed record HydrationLedgerOptions
{
    private readonly double _hourlyL = HydrationLimits.HourlyMaximumL;
    private readonly double _dailyL = HydrationLimits.DailyMaximumL;
    private readonly double _gutLph = double.NaN;

    /// <summary>Share of the loss that drinking to thirst replaces [share of 1]; two thirds (nata-2017).</summary>
    public double ThirstFraction { get; init => field = Guard.Fraction(value, nameof(ThirstFraction)); } = HydrationLimits.ThirstFraction;

    /// <summary>Most to drink in any hour; at most 1.42 L (1.5 US quarts, army-fluid-guide, niosh-2017-126).</summary>
    public Volume HourlyMaximum
    {
        get => Volume.FromLiters(_hourlyL);
        init => _hourlyL = Guard.InRange(value.Liters, 0.1, HydrationLimits.HourlyMaximumL, "L", nameof(HourlyMaximum));
    }

    /// <summary>Most to drink in any 24 hours; at most 11.36 L (12 US quarts, army-fluid-guide).</summary>
    public Volume DailyMaximum
    {
        get => Volume.FromLiters(_dailyL);
        init => _dailyL = Guard.InRange(value.Liters, 0.5, HydrationLimits.DailyMaximumL, "L", nameof(DailyMaximum));
    }

    /// <summary>Loss of body mass that raises the alarm [share of 1, 0.005 to 0.1]; 0.02 (acsm-2007).</summary>
    public double DeficitAlarmFraction { get; init => field = Guard.InRange(value, 0.005, 0.1, "(a share of 1)", nameof(DeficitAlarmFraction)); } = HydrationLimits.DeficitFraction;

    /// <summary>Share of the typical sodium loss to carry on rides of four hours and more [share of 1]; 0.5 unless stated. No published figure exists: a policy.</summary>
    [Source("assumption-sodium-policy", "share of the loss, and hours below which none is carried")]
    public double SodiumCarryFraction { get; init => field = Guard.Fraction(value, nameof(SodiumCarryFraction)); } = 0.5;

    /// <summary>Vomiting or diarrhoea.</summary>
    public GutIllness GutIllness { get; init => field = Guard.Defined(value, nameof(GutIllness)); }

    /// <summary>Water lost by the gut per hour as the rider judges it; 0 to 3 L/h. Null: unknown, and the ledger says that the deficit is a lower bound.</summary>
    public VolumeFlow? GutLoss
    {
        get => double.IsNaN(_gutLph) ? null : VolumeFlow.FromLitersPerHour(_gutLph);
        init => _gutLph = value is { } v ? Guard.InRange(v.LitersPerHour, 0, 3, "L/h", nameof(GutLoss)) : double.NaN;
    }

    internal double HourlyL => _hourlyL;

    internal double DailyL => _dailyL;

    internal double GutLph => _gutLph;
}
