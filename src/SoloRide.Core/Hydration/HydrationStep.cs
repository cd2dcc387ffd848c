using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>A stretch of time in the ledger of water and sodium.</summary>
/// <remarks>Immutable.</remarks>
public sealed record HydrationStep
{
    private readonly double _availableL = double.PositiveInfinity;
    private readonly double _plannedL = double.NaN;
    private readonly double _drunkL = double.NaN;

    /// <summary>Makes a step.</summary>
    /// <param name="duration">Above zero, at most 24 h.</param>
    /// <param name="sweatRate">Sweat rate during the step; 0 to 6 L/h.</param>
    /// <exception cref="ArgumentOutOfRangeException">Duration or rate outside its range.</exception>
    public HydrationStep(TimeSpan duration, Estimate<VolumeFlow> sweatRate)
    {
        Duration = duration > TimeSpan.Zero && duration <= TimeSpan.FromHours(24)
            ? duration
            : throw new ArgumentOutOfRangeException(nameof(duration), duration, "duration must be above 0 and at most 24 h.");
        SweatRate = Guard.NotNull(sweatRate);
        Guard.InRange(sweatRate.Low.LitersPerHour, 0, 6, "L/h", nameof(sweatRate));
        Guard.InRange(sweatRate.High.LitersPerHour, 0, 6, "L/h", nameof(sweatRate));
    }

    /// <summary>How long.</summary>
    public TimeSpan Duration { get; }

    /// <summary>Sweat rate.</summary>
    public Estimate<VolumeFlow> SweatRate { get; }

    /// <summary>Water in hand during the step; 0 or more. Null: enough.</summary>
    public Volume? Available
    {
        get => double.IsFinite(_availableL) ? Volume.FromLiters(_availableL) : null;
        init => _availableL = value is { } v ? Guard.InRange(v.Liters, 0, 100, "L", nameof(Available)) : double.PositiveInfinity;
    }

    /// <summary>What the plan wants drunk in the step; 0 to 30 L. It is cut to the loss and the caps, with a finding. Null: to thirst.</summary>
    public Volume? Planned
    {
        get => Si.Volume(_plannedL);
        init => _plannedL = value is { } v ? Guard.InRange(v.Liters, 0, 30, "L", nameof(Planned)) : double.NaN;
    }

    /// <summary>What was really drunk; 0 to 30 L. It stands as it is, with alarms. Null: the step lies ahead.</summary>
    public Volume? Drunk
    {
        get => Si.Volume(_drunkL);
        init => _drunkL = value is { } v ? Guard.InRange(v.Liters, 0, 30, "L", nameof(Drunk)) : double.NaN;
    }

    /// <summary>Sodium in the drink; 0 to 300 mmol/L, plain water unless stated.</summary>
    public Molarity DrinkSodium { get; init => field = Molarity.FromMillimolesPerLiter(Guard.InRange(value.MillimolesPerLiter, 0, 300, "mmol/L", nameof(DrinkSodium))); }

    /// <summary>Sodium in food eaten in the step.</summary>
    public Sodium Eaten { get; init; }

    /// <summary>Sodium in capsules or tablets taken in the step. They count as sodium and as a need of water, nothing else.</summary>
    public Sodium Capsules { get; init; }

    internal double AvailableL => _availableL;

    internal double PlannedL => _plannedL;

    internal double DrunkL => _drunkL;
}
