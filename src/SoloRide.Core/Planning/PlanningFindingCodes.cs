namespace SoloRide.Planning;

/// <summary>Stable codes of this module's findings; listed in docs/findings.md.</summary>
internal static class PlanningFindingCodes
{
    public const string CampLeftOut = "planning.camp-left-out";
    public const string CampUnknown = "planning.camp-unknown";
    public const string NoSplit = "planning.no-split";
    public const string NoHeights = "planning.no-heights";
    public const string NoForecast = "planning.no-forecast";
    public const string ForecastShort = "planning.forecast-short";
    public const string NoZone = "planning.no-zone";
    public const string NoNow = "planning.no-now";
    public const string StartPast = "planning.start-past";
    public const string StartFar = "planning.start-far";
    public const string NoExits = "planning.no-exits";
    public const string NoSources = "planning.no-sources";
    public const string NoDevices = "planning.no-devices";
    public const string NoContact = "planning.no-contact";
    public const string NoRider = "planning.no-rider";
    public const string NoLog = "planning.no-failure-log";
    public const string Typical = "planning.typical-only";
    public const string OffRoute = "planning.place-off-route";
    public const string CapacityShort = "planning.water-capacity-short";
    public const string WaterGuessed = "planning.water-guessed";
    public const string CoreHeat = "planning.core-heat";
    public const string Ice = "planning.ice";
    public const string CampCold = "planning.camp-cold";
    public const string CampDry = "planning.camp-dry";
    public const string NightUnknown = "planning.night-unknown";
    public const string RestShort = "planning.rest-short";
    public const string LeadersShort = "planning.leaders-short";
    public const string SparesPrior = "planning.spares-prior";
    public const string Gale = "planning.gale";
    public const string Frost = "planning.frost";
    public const string HeavyRain = "planning.heavy-rain";
    public const string HighGround = "planning.high-ground";
    public const string CheckUnknown = "planning.check-unknown";
    public const string CheckStale = "planning.check-stale";
    public const string ClockChanges = "planning.clock-changes";
    public const string FewSamples = "planning.few-samples";
    public const string ClosedForm = "planning.spread-closed-form";
}
