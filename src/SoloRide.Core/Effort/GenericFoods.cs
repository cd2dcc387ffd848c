using System.Collections.Immutable;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Generic foods by mass. Sodium is not in the table: it is the user's input from the packet.</summary>
[Source("usda-standard-reference", "generic rows, names shortened")]
public static class GenericFoods
{
    /// <summary>All rows: name, energy, carbohydrate, fat and protein in 100 g.</summary>
    public static ImmutableArray<FoodItem> All { get; } =
    [
        new("Apples, peeled", 48.0, 12.76, 0.13, 0.27),
        new("Bagels", 264.0, 52.38, 1.32, 10.56),
        new("Pita bread", 275.0, 55.7, 1.2, 9.1),
        new("Rye bread", 259.0, 48.3, 3.3, 8.5),
        new("Whole-wheat bread", 252.0, 42.71, 3.5, 12.45),
        new("Butter, salted", 717.0, 0.06, 81.11, 0.85),
        new("Chocolate caramels", 387.0, 87.73, 3.31, 1.59),
        new("Nut fudge", 461.0, 67.93, 18.93, 4.38),
        new("Granola", 489.0, 53.88, 24.31, 13.67),
        new("Cheddar", 404.0, 3.09, 33.31, 22.87),
        new("Feta", 264.0, 4.09, 21.28, 14.21),
        new("Grated hard cheese", 420.0, 13.91, 27.84, 28.42),
        new("Hole cheese", 393.0, 1.44, 30.99, 26.96),
        new("Dark chocolate", 579.0, 52.42, 38.31, 6.12),
        new("Fig bars", 348.0, 70.9, 7.3, 3.7),
        new("Oatmeal biscuits", 450.0, 68.7, 18.1, 6.2),
        new("Whole-wheat crackers", 398.0, 68.25, 10.71, 7.14),
        new("Poached egg", 143.0, 0.71, 9.47, 12.51),
        new("Tinned tuna", 186.0, 0.0, 8.08, 26.53),
        new("Roasted almonds", 598.0, 21.01, 52.54, 20.96),
        new("Hazelnuts", 628.0, 16.7, 60.75, 14.95),
        new("Mixed nuts, salted", 607.0, 21.05, 53.95, 20.04),
        new("Olive oil", 884.0, 0.0, 100.0, 0.0),
        new("Dry pasta", 371.0, 74.67, 1.51, 13.04),
        new("Roasted peanuts", 587.0, 21.26, 49.66, 24.35),
        new("Potato flakes", 354.0, 81.17, 0.41, 8.34),
        new("Cooked rice", 130.0, 28.17, 0.28, 2.69),
        new("Dry rice", 365.0, 79.95, 0.66, 7.13),
        new("Salami", 425.0, 1.2, 37.0, 21.7),
        new("Pumpkin seeds, salted", 574.0, 14.71, 49.05, 29.84),
        new("Sunflower seeds", 619.0, 20.59, 56.8, 17.21),
        new("Soft granola bar", 426.0, 64.4, 15.8, 10.5),
        new("Pretzels", 362.0, 81.3, 2.6, 11.1),
        new("Rice cakes", 387.0, 80.1, 3.5, 8.5),
        new("Trail mix with chocolate", 484.0, 44.9, 31.9, 14.2),
        new("Dry noodle soup", 377.0, 62.32, 6.51, 15.42),
        new("Flour tortillas", 297.0, 49.27, 7.58, 8.01),
    ];
}
