namespace SoloRide.Exposure;

internal static class ExposureFindingCodes
{
    public const string OutsideRange = "exposure.outside-range";
    public const string AirSpeedLimited = "exposure.air-speed-limited";
    public const string AssumedBody = "exposure.assumed-body";
    public const string AcclimatisationUnknown = "exposure.acclimatisation-unknown";
    public const string RadiantAssumed = "exposure.radiant-assumed";
    public const string EditionHypothesis = "exposure.edition-hypothesis";
    public const string CoreLimit = "exposure.core-limit";
    public const string LossLimit = "exposure.loss-limit";
    public const string TimeRounded = "exposure.time-rounded";
    public const string Assumed = "exposure.assumed";
    public const string HeatCategory = "exposure.heat-category";
    public const string WindChillCalm = "exposure.wind-chill-calm";
    public const string WindChillRange = "exposure.wind-chill-range";
    public const string Frostbite = "exposure.frostbite";
    public const string ThickClothing = "exposure.thick-clothing";
    public const string WetClothing = "exposure.wet-clothing";
    public const string NoClothingEnough = "exposure.no-clothing-enough";
    public const string InsulationMissing = "exposure.insulation-missing";
    public const string WeatherUnknown = "exposure.weather-unknown";
    public const string ShelterAssumption = "exposure.shelter-assumption";
    public const string RestMetabolism = "exposure.rest-metabolism";
    public const string ProtectiveHeatUnknown = "exposure.protective-heat-unknown";
    public const string CarriedShort = "exposure.carried-short";
    public const string LowSun = "exposure.low-sun";
}
