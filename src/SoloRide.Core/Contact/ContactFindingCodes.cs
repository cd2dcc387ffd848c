namespace SoloRide.Contact;

internal static class ContactFindingCodes
{
    public const string NoInterval = "contact.no-interval";
    public const string IntervalTooShort = "contact.interval-too-short";
    public const string SilenceTooLong = "contact.silence-too-long";
    public const string ReachUnknown = "contact.reach-not-known";
    public const string NoMeans = "contact.no-means";
    public const string InThePast = "contact.in-the-past";
    public const string NowUnknown = "contact.now-not-known";
    public const string ZoneAssumed = "contact.zone-assumed";
    public const string OtherZone = "contact.other-zone";
    public const string NoEmergencyNumber = "contact.no-emergency-number";
    public const string MedicalWithheld = "contact.medical-withheld";
    public const string FieldMissing = "contact.field-missing";
    public const string MessageCut = "contact.message-cut";
    public const string MessageReplaced = "contact.message-characters-replaced";
    public const string BatteryShort = "contact.battery-short";
}
