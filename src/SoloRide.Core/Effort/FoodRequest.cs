using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What a food plan is made from.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FoodRequest
{
    /// <summary>The rider; body mass, age, height and oxygen uptake are used where given.</summary>
    public required Rider Rider { get; init => field = Guard.NotNull(value, nameof(Rider)); }

    /// <summary>The days in order; at least one.</summary>
    public required IReadOnlyList<FoodDay> Days
    {
        get;
        init => field = Guard.NotNull(value, nameof(Days)).Count > 0 ? [.. value] : throw new ArgumentException("A food plan needs at least one day.", nameof(Days));
    }

    /// <summary>Foods to choose from; the generic ones unless stated.</summary>
    public IReadOnlyList<FoodItem> Foods { get; init => field = [.. Guard.NotNull(value, nameof(Foods))]; } = DefaultFoods;

    /// <summary>Where between the low and the high end of the carbohydrate guidance to aim [share of 1].</summary>
    public double GuidanceFraction { get; init => field = Guard.Fraction(value, nameof(GuidanceFraction)); } = 0.25;

    /// <summary>Most food that goes down while riding [g/h, 20 to 500].</summary>
    [Source("assumption-food", "palatable rate")]
    public double PalatableGPerHour { get; init => field = Guard.InRange(value, 20, 500, "g/h", nameof(PalatableGPerHour)); } = 150;

    /// <summary>Largest share of one food in what is eaten [share of 1, 0.1 to 1].</summary>
    [Source("assumption-food", "variety")]
    public double OneFoodFraction { get; init => field = Guard.InRange(value, 0.1, 1, "(a share of 1)", nameof(OneFoodFraction)); } = 0.4;

    /// <summary>Carbohydrate in muscle and liver at the start of a day that the ride can use, 0 to 800 g.</summary>
    [Source("glycogen-stores", "400 to 500 g; the low end")]
    public Mass Stores { get => Mass.FromGrams(StoresG); init => StoresG = Guard.InRange(value.Grams, 0, 800, "g", nameof(Stores)); }

    /// <summary>Hours of walking that the unopened reserve feeds; 0 to 48 h.</summary>
    [Source("assumption-food", "reserve")]
    public TimeSpan ReserveFor
    {
        get;
        init => field = value >= TimeSpan.Zero && value <= TimeSpan.FromHours(48) ? value : throw new ArgumentOutOfRangeException(nameof(ReserveFor), value, "ReserveFor must be 0 h to 48 h.");
    } = TimeSpan.FromHours(3);

    /// <summary>Whether breakfast, supper and nights are fed from the pack too; null: only with more than one day.</summary>
    public bool? WholeDays { get; init; }

    /// <summary>Share of a whole day's energy that food replaces on a tour of several days [share of 1, 0.5 to 1.2]; the rest comes from the body.</summary>
    [Source("assumption-food", "tour coverage")]
    public double CoverageFraction { get; init => field = Guard.InRange(value, 0.5, 1.2, "(a share of 1)", nameof(CoverageFraction)); } = 0.9;

    internal double StoresG { get; init; } = 400;

    private static IReadOnlyList<FoodItem> DefaultFoods { get; } =
        [.. GenericFoods.All.Where(f => f.Name is "Fig bars" or "Rice cakes" or "Pretzels" or "Trail mix with chocolate" or "Soft granola bar" or "Roasted almonds" or "Flour tortillas" or "Cheddar"),
            new FoodItem("Energy gel", 260, 65) { SodiumMgPer100G = 150, Use = FoodUse.Reserve }];
}
