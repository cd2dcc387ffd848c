namespace SoloRide.Escape;

/// <summary>Codes of the findings of this module.</summary>
internal static class EscapeFindingCodes
{
    public const string NoExit = "escape.no-exit";
    public const string NoWayOut = "escape.no-way-out";
    public const string ExitOffNetwork = "escape.exit-off-network";
    public const string StraightLine = "escape.straight-line";
    public const string TrailUnjoined = "escape.trail-unjoined";
    public const string RouteOnly = "escape.route-only";
    public const string CrossingJoined = "escape.crossing-joined";
    public const string CrossingApart = "escape.crossing-apart";
    public const string PaceAssumed = "escape.pace-assumed";
    public const string StiffShoes = "escape.stiff-shoes";
    public const string ResourceShort = "escape.resource-short";
    public const string AlternateTransferred = "escape.alternate-transferred";
    public const string RefillUncertain = "escape.refill-uncertain";
    public const string MarginTwice = "escape.margin-twice";
    public const string NoStart = "escape.no-start";
    public const string NoClock = "escape.no-clock";
    public const string FirstStrike = "escape.first-strike";
    public const string ThunderUnheard = "escape.thunder-unheard";
    public const string FordAssumed = "escape.ford-assumed";
    public const string ResponseAssumed = "escape.response-assumed";
    public const string WaitShort = "escape.wait-short";
    public const string WaitUnknown = "escape.wait-unknown";
    public const string TrailEnds = "escape.trail-ends";
    public const string NavigationShared = "escape.navigation-shared";
    public const string NavigationSingle = "escape.navigation-single";
    public const string SlopeOutside = "escape.slope-outside";
}
