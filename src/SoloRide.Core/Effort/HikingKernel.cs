using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Walking rates and hiking-time rules as published. Slopes are rise over run; rates are not clamped here and may leave their range.</summary>
internal static class HikingKernel
{
    [Source("campbell-2019", "supplement: percentile, a, b, c, d, e")]
    private static readonly double[][] Campbell =
    [
        [1, -2.1, 12.273, 21.816, 0.263, -0.00193],
        [5, -1.527, 14.041, 36.813, 0.32, -0.00273],
        [10, -1.568, 13.328, 38.892, 0.404, -0.00323],
        [15, -1.626, 11.847, 38.231, 0.481, -0.00356],
        [20, -1.71, 10.154, 36.905, 0.557, -0.00389],
        [25, -1.822, 8.827, 37.111, 0.616, -0.00402],
        [30, -1.858, 8.412, 39.995, 0.645, -0.0043],
        [35, -1.891, 8.584, 44.852, 0.649, -0.00443],
        [40, -1.958, 8.96, 50.34, 0.649, -0.00457],
        [45, -2.05, 9.402, 56.172, 0.646, -0.0046],
        [50, -2.171, 10.064, 63.66, 0.628, -0.00463],
        [55, -2.317, 10.712, 71.572, 0.608, -0.00451],
        [60, -2.459, 11.311, 79.287, 0.599, -0.00461],
        [65, -2.647, 12.089, 89.143, 0.576, -0.00465],
        [70, -2.823, 12.784, 98.697, 0.566, -0.00493],
        [75, -3.067, 13.888, 113.655, 0.518, -0.00488],
        [80, -3.371, 15.395, 134.409, 0.443, -0.00472],
        [85, -3.661, 17.137, 159.027, 0.385, -0.00534],
        [90, -3.06, 16.653, 138.875, 0.823, -0.01386],
        [95, -3.485, 17.033, 138.04, 1.179, -0.01252],
        [99, -4.0, 13.903, 123.515, 1.961, -0.01081],
    ];

    [Source("sullivan-2020", "supplement: percentile, a, b, c, d, e; labels look reversed, never chosen by a plan")]
    private static readonly double[][] Sullivan =
    [
        [16.7, -3.3717, 25.8255, 92.6594, -0.1624, 0.0019],
        [50, -2.8292, 20.9482, 77.6346, -0.2228, 0.0004],
        [83.3, -2.2893, 19.4024, 65.3577, -0.6226, 0.002],
    ];

    [Source("swiss-hiking-time", "coefficients of x = 10 rise/run, min/km")]
    private static readonly double[] Swiss = [14.271, 3.6992, 2.5922, -1.4384, 0.32105, 0.81542, -0.090261, -0.20757, 0.010192, 0.028588, -0.00057466, -0.0021842, 1.5176e-05, 8.6894e-05, -1.3584e-07, -1.4026e-06];

    /// <summary>Recorded users of trails on foot by percentile of pace, 1 slowest; joggers included.</summary>
    [Source("campbell-2019", "percentiles of the supplement, published rule WK9")]
    public static double CampbellMps(double slope, double percentile) => Lorentz(Row(Campbell, percentile), slope);

    /// <summary>The coefficients as coded in public packages, for comparison with their own printed values only: refused wherever a rate is asked for.</summary>
    [Source("sullivan-2020", "three percentiles")]
    public static double SullivanRawMps(double slope, double percentile) => Lorentz(Row(Sullivan, percentile), slope);

    /// <summary>Between tabulated percentiles of walkers, linear in the percentile.</summary>
    public static double CampbellBetweenMps(double slope, double percentile)
    {
        int i = 0;
        while (i < Campbell.Length - 2 && Campbell[i + 1][0] <= percentile)
        {
            i++;
        }

        double t = (percentile - Campbell[i][0]) / (Campbell[i + 1][0] - Campbell[i][0]);
        return ((1 - t) * Lorentz(Campbell[i], slope)) + (t * Lorentz(Campbell[i + 1], slope));
    }

    [Source("tobler-1993", "hiking function; off path times 0.6, published rule WK4")]
    public static double ToblerKmh(double slope, bool offPath) => 6 * Math.Exp(-3.5 * Math.Abs(slope + 0.05)) * (offPath ? 0.6 : 1);

    [Source("marquez-perez-2017", "hiking function refitted")]
    public static double MarquezPerezKmh(double slope) => 4.8 * Math.Exp(-5.3 * Math.Abs((0.7 * slope) + 0.03));

    [Source("irmischer-clarke-2018", "on and off path; women 0.95")]
    public static double IrmischerClarkeMps(double slope, bool offPath, bool female)
    {
        double x = 100 * Math.Abs(slope), y = offPath ? x + 2 : x + 5;
        double v = 0.11 + ((offPath ? 0.67 : 1) * Math.Exp(-(y * y) / 1800));
        return female ? 0.95 * v : v;
    }

    [Source("rees-2004", "path speed")]
    public static double ReesMps(double slope) => 1 / (0.75 + (0.09 * Math.Abs(slope)) + (14.6 * slope * slope));

    [Source("davey-1994", "angle in radians")]
    public static double DaveyMps(double slope) => 1.40 * Math.Exp(-2.8 * Math.Atan(Math.Abs(slope)));

    [Source("swiss-hiking-time", "polynomial within 0.4, lines outside")]
    public static double SwissMinPerKm(double slope)
    {
        double x = 10 * slope;
        if (Math.Abs(x) >= 4)
        {
            return x > 0 ? 17 * x : -9 * x;
        }

        double sum = 0;
        for (int k = Swiss.Length - 1; k >= 0; k--)
        {
            sum = (sum * x) + Swiss[k];
        }

        return sum;
    }

    [Source("naismith-1892", "5 km/h and 600 m/h, published rule WK1")]
    public static double NaismithHours(double km, double ascentM) => (km / 5) + (ascentM / 600);

    [Source("naismith-1892", "form with eight horizontal metres for each metre of ascent")]
    public static double NaismithEightHours(double km, double ascentM, double levelKmh) => (km + (8 * ascentM / 1000)) / levelKmh;

    [Source("naismith-1892", "form in minutes: 12 a kilometre and 1 for each 10 m")]
    public static double NaismithMinutes(double km, double ascentM) => (12 * km) + (ascentM / 10);

    [Source("langmuir-1984", "descent of 5 to 12 degrees and of more, published rule WK3")]
    public static double LangmuirHours(double km, double ascentM, double descentGentleM, double descentSteepM)
        => NaismithHours(km, ascentM) - (descentGentleM / 1800) + (descentSteepM / 1800);

    [Source("din-33466", "4 km/h, 300 m/h up, 500 m/h down; larger and half the smaller")]
    public static double DinHours(double km, double ascentM, double descentM)
    {
        double a = km / 4, b = (ascentM / 300) + (descentM / 500);
        return Math.Max(a, b) + (0.5 * Math.Min(a, b));
    }

    [Source("ticino-effort-km", "10 for ascent, 3.3 for descent")]
    public static double EffortKm(double km, double ascentKm, double descentKm) => km + (10 * ascentKm) + (3.3 * descentKm);

    [Source("munter", "one leg of one sign")]
    public static double MunterHours(double km, double elevationM, double rate) => (km + (Math.Abs(elevationM) / 100)) / rate;

    private static double[] Row(double[][] table, double percentile)
    {
        foreach (double[] row in table)
        {
            if (row[0] == percentile)
            {
                return row;
            }
        }

        throw new ArgumentOutOfRangeException(nameof(percentile), percentile, "No such percentile in the published table.");
    }

    private static double Lorentz(double[] k, double slope)
    {
        double deg = Math.Atan(slope) * (180 / Math.PI), u = (deg - k[1]) / k[2];
        return (k[3] / (Math.PI * k[2] * (1 + (u * u)))) + k[4] + (k[5] * deg);
    }
}
