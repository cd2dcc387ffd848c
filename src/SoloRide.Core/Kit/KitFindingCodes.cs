namespace SoloRide.Kit;

internal static class KitFindingCodes
{
    public const string PriorOnly = "kit.prior-only";
    public const string NotWeighed = "kit.failure-not-weighed";
    public const string DoesNotFit = "kit.part-does-not-fit";
    public const string FitUnknown = "kit.part-fit-not-checked";
    public const string Expired = "kit.expired";
    public const string ExpiryUnknown = "kit.expiry-not-checked";
    public const string FireBan = "kit.fire-ban";
    public const string FireUnknown = "kit.fire-rule-not-known";
    public const string NeedUnmet = "kit.need-unmet";
    public const string WaterShort = "kit.water-capacity-short";
    public const string OverCap = "kit.over-cap";
    public const string MovedToBody = "kit.moved-to-body";
    public const string TyreAboveLimit = "kit.tyre-above-limit";
    public const string TyreBelowLimit = "kit.tyre-below-limit";
    public const string TyreLimitUnknown = "kit.tyre-limit-not-known";
    public const string InspectionFault = "kit.inspection-fault";
    public const string InspectionWorn = "kit.inspection-worn";
    public const string InspectionDue = "kit.inspection-due";
    public const string InspectionDateUnknown = "kit.inspection-date-not-checked";
    public const string AntiInflammatory = "kit.anti-inflammatory";
    public const string FirstAidGap = "kit.first-aid-gap";
    public const string NotProven = "kit.best-not-proven";
}
