using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Food of one day.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FoodDayPlan
{
    internal FoodDayPlan(
        FoodDay day, double needJ, double carbohydrateUsedG, (double Low, double High) guidanceGPerHour, double hours, double targetG, double eatenJ, double eatenG, double campJ, IReadOnlyList<FoodHour> hoursList)
    {
        Day = day;
        Need = Energy.FromJoules(needJ);
        CarbohydrateUsed = Mass.FromGrams(carbohydrateUsedG);
        GuidanceLowGPerHour = guidanceGPerHour.Low;
        GuidanceHighGPerHour = guidanceGPerHour.High;
        AdvisedLow = Mass.FromGrams(guidanceGPerHour.Low * hours);
        AdvisedHigh = Mass.FromGrams(guidanceGPerHour.High * hours);
        Target = Mass.FromGrams(targetG);
        Eaten = Energy.FromJoules(eatenJ);
        CarbohydrateEaten = Mass.FromGrams(eatenG);
        AtCamp = Energy.FromJoules(campJ);
        Deficit = Energy.FromJoules(Math.Max(0, needJ - eatenJ - campJ));
        Hours = hoursList;
    }

    /// <summary>The day.</summary>
    public FoodDay Day { get; }

    /// <summary>Energy of the ride, or of the whole day where whole days are fed.</summary>
    public Energy Need { get; }

    /// <summary>Carbohydrate that the body burns on the ride.</summary>
    public Mass CarbohydrateUsed { get; }

    /// <summary>Advised carbohydrate, low end [g/h].</summary>
    public double GuidanceLowGPerHour { get; }

    /// <summary>Advised carbohydrate, high end [g/h].</summary>
    public double GuidanceHighGPerHour { get; }

    /// <summary>Advised carbohydrate over the ride, low end.</summary>
    public Mass AdvisedLow { get; }

    /// <summary>Advised carbohydrate over the ride, high end.</summary>
    public Mass AdvisedHigh { get; }

    /// <summary>Carbohydrate that the plan aims at while riding.</summary>
    public Mass Target { get; }

    /// <summary>Energy eaten while riding by the plan.</summary>
    public Energy Eaten { get; }

    /// <summary>Carbohydrate eaten while riding by the plan.</summary>
    public Mass CarbohydrateEaten { get; }

    /// <summary>Energy eaten before and after the ride, where whole days are fed.</summary>
    public Energy AtCamp { get; }

    /// <summary>Need that no food of the plan covers: the body gives it.</summary>
    public Energy Deficit { get; }

    /// <summary>Hour by hour.</summary>
    public IReadOnlyList<FoodHour> Hours { get; }
}
