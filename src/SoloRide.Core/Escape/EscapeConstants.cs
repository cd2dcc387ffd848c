using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Published figures and named assumptions of this module.</summary>
internal static class EscapeConstants
{
    [Source("leader-award", "within 30 min walk of a road or refuge, published rule GR2")]
    public const double NearMinutes = 30;

    [Source("assumption-escape-classes", "far: more than 120 min out")]
    public const double FarMinutes = 120;

    [Source("assumption-escape-classes", "shoes are mentioned above 2 h on foot")]
    public const double StiffShoesHours = 2;

    [Source("assumption-escape-classes", "a wrong turn is noticed after 5, 15 or 30 min")]
    public static double[] NoticedMinutes => [5, 15, 30];

    [Source("14-cfr-91-151", "(a)(1), day: 30 min, published rule RV1; transferred from aviation")]
    public const double ReserveDayMinutes = 30;

    [Source("14-cfr-91-151", "(a)(2), night: 45 min, published rule RV2; transferred from aviation")]
    public const double ReserveNightMinutes = 45;

    [Source("assumption-reserve", "10 % of the time that remains")]
    public const double ReserveShare = 0.10;

    [Source("14-cfr-91-167", "(b): from 1 h before to 1 h after the planned arrival, published rule RV5; transferred from aviation")]
    public const double AlternateHours = 1;

    [Source("assumption-escape-graph", "longest step of a route or trail that is given as a profile")]
    public const double TrailSpacingM = 50;
}
