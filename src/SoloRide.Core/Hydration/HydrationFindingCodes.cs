namespace SoloRide.Hydration;

internal static class HydrationFindingCodes
{
    public const string BodyAssumed = "hydration.body-assumed";
    public const string WeatherAssumed = "hydration.weather-assumed";
    public const string OutsideModel = "hydration.outside-model";
    public const string OwnRateUsed = "hydration.own-rate-used";
    public const string UncompensableHeat = "hydration.uncompensable-heat";
    public const string RideLeftOut = "hydration.ride-left-out";
    public const string FewRides = "hydration.few-rides";
    public const string SodiumPrior = "hydration.sodium-prior";
    public const string IntakeCut = "hydration.intake-cut";
    public const string OverDrinking = "hydration.over-drinking";
    public const string Dilution = "hydration.dilution";
    public const string Deficit = "hydration.deficit";
    public const string DrinkToThirst = "hydration.drink-to-thirst";
    public const string GutIllness = "hydration.gut-illness";
    public const string SaltNoCure = "hydration.salt-no-cure";
    public const string SourceUnknown = "hydration.source-unknown";
    public const string SourceNotPlaced = "hydration.source-not-placed";
    public const string ReportOld = "hydration.report-old";
    public const string WaterShort = "hydration.water-short";
    public const string PlanNotProven = "hydration.plan-not-proven";
    public const string DoubtfulSource = "hydration.doubtful-source";
    public const string TreatmentLimits = "hydration.treatment-limits";
    public const string TreatmentUnset = "hydration.treatment-unset";
    public const string NoSecondMethod = "hydration.no-second-method";
    public const string FilterLost = "hydration.filter-lost";
}
