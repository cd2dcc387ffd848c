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
    public const string ZeroLengthLine = "routes.zero-length-line";
    public const string OverlappingLines = "routes.overlapping-lines";
    public const string NetworkParts = "routes.network-parts";
    public const string OffNetwork = "routes.off-network";
    public const string OffTrails = "routes.off-trails";
    public const string NoWay = "routes.no-way";
    public const string Barred = "routes.barred";
    public const string BarIgnored = "routes.bar-ignored";
    public const string NoLoop = "routes.no-loop";
    public const string LoopSearchBounded = "routes.loop-search-bounded";
    public const string FewerLoops = "routes.fewer-loops";
    public const string ChangeRefused = "routes.change-refused";
    public const string ExitLost = "routes.exit-lost";
    public const string OldTrack = "routes.old-track";
    public const string UndatedTrack = "routes.undated-track";
    public const string NotChecked = "routes.not-checked";
    public const string Access = "routes.access-unproven";
}
