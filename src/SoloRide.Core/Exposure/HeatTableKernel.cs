using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Heat categories and the army work, rest and water table.</summary>
[Source("army-work-rest", "whole table, published rule HT1")]
internal static class HeatTableKernel
{
    public const double LitresPerQuart = 0.946352946;
    public const double HighestQtPerHour = 1.5;
    public const double HighestQtPerDay = 12;

    /// <summary>Published spread between persons, and between sun and shade.</summary>
    public const double PersonSpreadQt = 0.25;

    /// <summary>Category 0 (none) to 5. The printed gaps of 0.1 F close downwards.</summary>
    public static int Category(double wbgtF)
    {
        ReadOnlySpan<double> from = [78, 82, 85, 88, 90];
        int category = 0;
        while (category < 5 && wbgtF >= from[category])
        {
            category++;
        }

        return category;
    }

    /// <summary>Lowest WBGT of a category 1 to 5 [F].</summary>
    public static double FromF(int category)
    {
        ReadOnlySpan<double> from = [78, 82, 85, 88, 90];
        return from[category - 1];
    }

    /// <summary>Minutes of work in the hour (60: no limit) and water [qt/h]; category 1 to 5, intensity 0 easy to 2 hard.</summary>
    public static (int WorkMinutes, double WaterQtPerHour) Cell(int category, int intensity)
    {
        ReadOnlySpan<byte> work = [60, 60, 60, 60, 50, 60, 50, 40, 30, 20, 40, 30, 30, 20, 10];
        ReadOnlySpan<double> water = [0.5, 0.5, 0.75, 0.75, 1, 0.75, 0.75, 0.75, 0.75, 1, 0.75, 1, 1, 1, 1];
        int i = (intensity * 5) + category - 1;
        return (work[i], water[i]);
    }
}
