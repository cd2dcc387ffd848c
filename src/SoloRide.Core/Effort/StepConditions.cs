using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What holds on a step besides the trail itself. Everything may be left out.</summary>
/// <remarks>Immutable.</remarks>
public sealed record StepConditions
{
    private readonly double _carriedKg;

    /// <summary>Mild still air in daylight, fresh rider, nothing carried besides the load.</summary>
    public static StepConditions Default { get; } = new();

    /// <summary>Weather at the rider; unknown parts take still air and the standard atmosphere's temperature.</summary>
    public Weather Weather { get; init; } = Weather.Unknown;

    /// <summary>Water and food carried on the body besides the load; 0 to 60 kg.</summary>
    public Mass Carried
    {
        get => Mass.FromKilograms(_carriedKg);
        init => _carriedKg = Guard.InRange(value.Kilograms, 0, 60, "kg", nameof(Carried));
    }

    /// <summary>Hours in motion before the step, for fatigue.</summary>
    public TimeSpan MovingBefore { get; init => field = Guard.NotNegative(value, nameof(MovingBefore)); }

    /// <summary>Whether the step is done in the dark by lamp.</summary>
    public bool ByLamp { get; init; }

    /// <summary>Whether the rider has a hurt leg (on foot only).</summary>
    public bool Injured { get; init; }

    /// <summary>Whether an assisted bike gives no help: empty battery or switched off.</summary>
    public bool AssistOff { get; init; }

    internal double CarriedKg => _carriedKg;
}
