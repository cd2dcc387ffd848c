using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Points of no return.</summary>
internal static class PnrKernel
{
    /// <summary>Distance of no return at constant speeds out and home.</summary>
    /// <param name="endurance">Time available.</param>
    /// <param name="speedOut">Above 0.</param>
    /// <param name="speedHome">Above 0, same unit.</param>
    /// <returns>Distance in the unit of speed times the unit of endurance.</returns>
    [Source("pnr-form", "published rule RV10: E o h / (o + h)")]
    public static double Distance(double endurance, double speedOut, double speedHome) => endurance * speedOut * speedHome / (speedOut + speedHome);

    /// <summary>Time to that point.</summary>
    [Source("pnr-form", "published rule RV10: E h / (o + h)")]
    public static double Time(double endurance, double speedOut, double speedHome) => endurance * speedHome / (speedOut + speedHome);

    /// <summary>Distance from where going on at one speed and back at another take the same time.</summary>
    [Source("etp-form", "published rule RV11: D h / (o + h)")]
    public static double EqualTimeDistance(double distance, double speedOut, double speedHome) => distance * speedHome / (speedOut + speedHome);

    /// <summary>Time to that point when the whole leg takes a given time out.</summary>
    [Source("etp-form", "published rule RV11: D h / (o + h), over the speed out")]
    public static double EqualTimeTime(double distance, double speedOut, double speedHome, double legTime)
        => EqualTimeDistance(distance, speedOut, speedHome) / distance * legTime;

    /// <summary>
    /// The first place past which more is needed than is there, for an account that is used linearly between breaks.
    /// </summary>
    /// <param name="alongM">Ascending distances of the breaks.</param>
    /// <param name="needed">What is used from the start to each break and from there home; +infinity where there is no way home.</param>
    /// <param name="budget">What may be used.</param>
    /// <param name="fromM">Where to begin.</param>
    /// <returns>Distance; NaN when the budget suffices to the end; <paramref name="fromM"/> when it does not even there.</returns>
    public static double First(ReadOnlySpan<double> alongM, ReadOnlySpan<double> needed, double budget, double fromM = double.NegativeInfinity)
    {
        double tolerance = Math.Abs(budget) * 1e-12;
        for (int i = 0; i < alongM.Length; i++)
        {
            if (alongM[i] < fromM || needed[i] <= budget + tolerance)
            {
                continue;
            }

            if (i == 0 || alongM[i - 1] < fromM || !double.IsFinite(needed[i]))
            {
                return i == 0 ? alongM[0] : Math.Max(alongM[i - 1], double.IsFinite(fromM) ? fromM : alongM[i - 1]);
            }

            double slope = needed[i] - needed[i - 1];
            return slope > 0 ? alongM[i - 1] + ((budget - needed[i - 1]) / slope * (alongM[i] - alongM[i - 1])) : alongM[i - 1];
        }

        return double.NaN;
    }
}
