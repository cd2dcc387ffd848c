using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>How long silence goes unnoticed.</summary>
internal static class CheckInKernel
{
    /// <summary>Mean, when the mishap is uniform in the interval and silence is noticed a grace after the missed time.</summary>
    [Source("derived-detection", "uniform in the interval")]
    public static double MeanDetectionS(double intervalS, double graceS) => (intervalS / 2) + graceS;

    public static double WorstDetectionS(double intervalS, double graceS) => intervalS + graceS;

    /// <summary>Longest interval after which help still comes in time; zero or less: there is none.</summary>
    [Source("derived-detection", "interval + grace + reaction + response <= tolerated wait")]
    public static double LongestIntervalS(double toleratedS, double graceS, double reactionS, double responseS)
        => toleratedS - graceS - reactionS - responseS;
}
