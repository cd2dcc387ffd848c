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
}
