using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Food for a ride or a tour: what is needed, what is taken, what stays unopened.</summary>
/// <remarks>Group means; no dietary or medical advice. Immutable.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
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

    /// <summary>Need and target of each day, what is eaten and what stays unopened, findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        List<string> lines = [];
        for (int i = 0; i < Days.Count; i++)
        {
            FoodDayPlan d = Days[i];
            lines.Add($"{(Days.Count > 1 ? $"Day {Text.F(i + 1, 0)}: need" : "Need")} {Kcal(d.Need)}, carbohydrate burnt {G(d.CarbohydrateUsed)}, advised {G(d.AdvisedLow)} to {G(d.AdvisedHigh)}, planned {G(d.CarbohydrateEaten)}; not covered by food {Kcal(d.Deficit)}.");
        }

        lines.Add($"To eat: {List(Eat)}; {Kcal(EatEnergy)}.");
        lines.Add($"Stays unopened: {List(Reserve)}; {Kcal(ReserveEnergy)}.");
        lines.Add($"In the pack {Text.F(PackMass.Kilograms, 2)} kg.");
        return Render.Lines(string.Join('\n', lines), Findings, Cautions.Sentences);

        static string Kcal(Energy e) => Text.Thousands(e.Kilocalories) + " kcal";

        static string G(Mass m) => Text.F(m.Grams, 0) + " g";

        static string List(IReadOnlyList<FoodPortion> portions) => portions.Count == 0 ? "nothing" : string.Join(", ", portions.Select(p => $"{p.Food.Name} {G(p.Mass)}"));
    }
}
