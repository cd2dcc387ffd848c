namespace SoloRide.Routes;

internal static class RoutesFindingCodes
{
    public const string BadPoint = "routes.bad-point";
    public const string BadHeight = "routes.bad-height";
    public const string BadTime = "routes.bad-time";
    public const string TimeWithoutZone = "routes.time-without-zone";
    public const string LeapSecond = "routes.leap-second";
    public const string Namespace = "routes.namespace";
    public const string Damaged = "routes.damaged-file";
    public const string BadCharacters = "routes.bad-characters";
    public const string SeveralLines = "routes.several-lines";
    public const string Gap = "routes.gap";
    public const string NoHeights = "routes.no-heights";
    public const string PartialHeights = "routes.partial-heights";
    public const string HeightSourceRecognised = "routes.height-source";
    public const string HeightSourceDoubtful = "routes.height-source-doubtful";
    public const string FlatRoute = "routes.flat-for-the-noise";
    public const string SparsePoints = "routes.sparse-points";
    public const string Cleaned = "routes.cleaned";
    public const string TerrainVoid = "routes.terrain-void";
    public const string BadSection = "routes.bad-section";
    public const string MoreOfTheSame = "routes.more-of-the-same";
    public const string EndsLost = "routes.track-times-unmatched";
    public const string Access = "routes.access-unproven";
}
