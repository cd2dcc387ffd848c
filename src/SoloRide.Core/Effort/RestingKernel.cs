using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Resting energy by the published equations.</summary>
internal static class RestingKernel
{
    // Rows by age: below 3, 3 to 10, 10 to 18, 18 to 30, 30 to 60, above 60; intercept, per kg, per m.
    [Source("schofield-1985", "mass [MJ/d], male")]
    private static readonly double[][] SchofieldWeightMale = [[-0.127, 0.249, 0], [2.11, 0.095, 0], [2.754, 0.074, 0], [2.896, 0.063, 0], [3.653, 0.048, 0], [2.459, 0.049, 0]];

    [Source("schofield-1985", "mass [MJ/d], female")]
    private static readonly double[][] SchofieldWeightFemale = [[-0.13, 0.244, 0], [2.033, 0.085, 0], [2.898, 0.056, 0], [2.036, 0.062, 0], [3.538, 0.034, 0], [2.755, 0.038, 0]];

    [Source("schofield-1985", "mass and height [MJ/d], male")]
    private static readonly double[][] SchofieldHeightMale = [[-2.584, 7e-04, 6.349], [1.736, 0.082, 0.545], [2.157, 0.068, 0.574], [2.953, 0.063, -0.042], [3.67, 0.048, -0.011], [-3.491, 0.038, 4.068]];

    [Source("schofield-1985", "mass and height [MJ/d], female")]
    private static readonly double[][] SchofieldHeightFemale = [[-1.73, 0.068, 4.281], [1.553, 0.071, 0.677], [0.837, 0.035, 1.948], [0.411, 0.057, 1.184], [3.53, 0.034, 0.006], [0.074, 0.033, 1.917]];

    [Source("fao-who-1985", "mass [kcal/d], male")]
    private static readonly double[][] FaoMale = [[-30.4, 59.512, 0], [504.3, 22.706, 0], [658.2, 17.686, 0], [692.2, 15.057, 0], [873.1, 11.472, 0], [587.7, 11.711, 0]];

    [Source("fao-who-1985", "mass [kcal/d], female")]
    private static readonly double[][] FaoFemale = [[-31.1, 58.317, 0], [485.9, 20.315, 0], [692.6, 13.384, 0], [486.6, 14.818, 0], [845.6, 8.126, 0], [658.5, 9.082, 0]];

    [Source("mifflin-1990", "[kcal/d]")]
    public static double MifflinKcalPerDay(Sex sex, double kg, double cm, double years)
        => (10 * kg) + (6.25 * cm) - (5 * years) + (sex == Sex.Male ? 5 : -161);

    [Source("harris-benedict-1919", "full coefficients [kcal/d]")]
    public static double HarrisBenedictKcalPerDay(Sex sex, double kg, double cm, double years) => sex == Sex.Male
        ? 66.473 + (13.7516 * kg) + (5.0033 * cm) - (6.755 * years)
        : 655.0955 + (9.5634 * kg) + (1.8496 * cm) - (4.6756 * years);

    public static double SchofieldMjPerDay(Sex sex, double kg, double years)
    {
        double[] c = Row(sex == Sex.Male ? SchofieldWeightMale : SchofieldWeightFemale, years);
        return c[0] + (c[1] * kg);
    }

    public static double SchofieldMjPerDay(Sex sex, double kg, double metres, double years)
    {
        double[] c = Row(sex == Sex.Male ? SchofieldHeightMale : SchofieldHeightFemale, years);
        return c[0] + (c[1] * kg) + (c[2] * metres);
    }

    public static double FaoKcalPerDay(Sex sex, double kg, double years)
    {
        double[] c = Row(sex == Sex.Male ? FaoMale : FaoFemale, years);
        return c[0] + (c[1] * kg);
    }

    /// <summary>An age on the edge of two bands belongs to the younger one.</summary>
    private static double[] Row(double[][] table, double years)
        => table[years <= 3 ? 0 : years <= 10 ? 1 : years <= 18 ? 2 : years <= 30 ? 3 : years <= 60 ? 4 : 5];
}
