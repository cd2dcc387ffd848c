namespace SoloRide.Batteries;

internal static class BatteriesFindingCodes
{
    public const string NoNight = "batteries.no-night";
    public const string NoAnchor = "batteries.no-anchor";
    public const string NoBank = "batteries.no-bank";
    public const string NoSamples = "batteries.no-samples";
    public const string ColdCharge = "batteries.cold-charge";
    public const string FlatBeforeEnd = "batteries.flat-before-end";
    public const string FlatInNight = "batteries.flat-in-night";
    public const string BankShort = "batteries.bank-short";
    public const string TopUpTooLate = "batteries.top-up-too-late";
    public const string NoWayToMessage = "batteries.no-way-to-message";
    public const string NoWayToCall = "batteries.no-way-to-call";
    public const string BeaconExpired = "batteries.beacon-expired";
    public const string BeaconUnknown = "batteries.beacon-unknown";
    public const string BeaconTests = "batteries.beacon-tests";
    public const string LampTooDim = "batteries.lamp-too-dim";
    public const string OutsideCold = "batteries.outside-temperature";
    public const string NoCoverage = "batteries.phone-coverage-unknown";
    public const string PowerRanges = "batteries.power-ranges";
    public const string NotChargeable = "batteries.not-chargeable";
    public const string SlowCharge = "batteries.slow-charge";
    public const string OutsideCharge = "batteries.outside-charge-range";
    public const string OldPack = "batteries.old-pack";
    public const string LogRises = "batteries.log-rises";
    public const string LogShort = "batteries.log-short";
    public const string ClaimImplausible = "batteries.claim-implausible";
    public const string BankSwitchesOff = "batteries.bank-switches-off";
    public const string Carrier = "batteries.check-with-carrier";
}
