using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Food for a ride or a tour: what is needed, what is taken, what stays unopened.</summary>
/// <remarks>Group means; no dietary or medical advice. Immutable.</remarks>
public sealed record FoodPlan
{
    internal FoodPlan(IReadOnlyList<FoodDayPlan> days, IReadOnlyList<FoodPortion> eat, IReadOnlyList<FoodPortion> reserve, IReadOnlyList<Finding> findings)
    {
        Days = days;
        Eat = eat;
        Reserve = reserve;
        Findings = findings;
    }

    /// <summary>Day by day.</summary>
    public IReadOnlyList<FoodDayPlan> Days { get; }

    /// <summary>To be eaten, over all days.</summary>
    public IReadOnlyList<FoodPortion> Eat { get; }

    /// <summary>To stay unopened.</summary>
    public IReadOnlyList<FoodPortion> Reserve { get; }

    /// <summary>What was assumed and what falls short.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Mass in the pack at the start.</summary>
    public Mass PackMass => Mass.FromKilograms(Eat.Sum(p => p.Kg) + Reserve.Sum(p => p.Kg));

    /// <summary>Energy of what is to be eaten.</summary>
    public Energy EatEnergy => Energy.FromJoules(Eat.Sum(p => p.Content.Joules));

    /// <summary>Energy of the reserve.</summary>
    public Energy ReserveEnergy => Energy.FromJoules(Reserve.Sum(p => p.Content.Joules));

    /// <summary>Sodium of what is to be eaten, as far as the packets say.</summary>
    public Mass KnownSodium => Mass.FromMilligrams(Eat.Sum(p => p.Sodium?.Milligrams ?? 0));

    /// <summary>Sodium of the reserve, as far as the packets say.</summary>
    public Mass KnownReserveSodium => Mass.FromMilligrams(Reserve.Sum(p => p.Sodium?.Milligrams ?? 0));
}
