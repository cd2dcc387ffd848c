namespace SoloRide.Effort;

internal static class EffortFindingCodes
{
    public const string EffortBasis = "effort.basis";
    public const string MassAssumed = "effort.mass-assumed";
    public const string NoHeights = "effort.no-heights";
    public const string NoWeather = "effort.no-weather";
    public const string Altitude = "effort.altitude";
    public const string Heat = "effort.heat";
    public const string SteepFoot = "effort.steep-on-foot";
    public const string SlowFoot = "effort.slow-on-foot";
    public const string HeavyFoot = "effort.heavy-on-foot";
    public const string FastFoot = "effort.fast-on-foot";
    public const string LongRide = "effort.long-ride";
    public const string AboveSustained = "effort.above-sustained";
    public const string AboveCap = "effort.above-cap";
    public const string BelowBalance = "effort.below-balance";
    public const string RestingRange = "effort.resting-range";
    public const string ActivityRange = "effort.activity-range";
    public const string WalkingRange = "effort.walking-range";
    public const string RuleRange = "effort.rule-range";
    public const string AssistEmpty = "effort.assist-empty";
    public const string SurfaceUnknown = "effort.surface-unknown";
    public const string PriorsUsed = "effort.priors";
    public const string FuelShare = "effort.fuel-share";
    public const string FoodShort = "effort.food-short";
    public const string StoresSpent = "effort.stores-spent";
    public const string ReserveShort = "effort.reserve-short";
    public const string SodiumUnknown = "effort.sodium-unknown";
    public const string HeartRateRange = "effort.heart-rate-range";
    public const string CyclingRange = "effort.cycling-range";
    public const string BodyAssumed = "effort.body-assumed";
}
