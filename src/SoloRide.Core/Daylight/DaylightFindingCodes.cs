namespace SoloRide.Daylight;

/// <summary>Stable codes of this module's findings.</summary>
internal static class DaylightFindingCodes
{
    public const string OutsideSpan = "daylight.outside-span";
    public const string FreeHorizon = "daylight.free-horizon";

    public const string ModelHeight = "daylight.model-height";
    public const string TerrainGap = "daylight.terrain-gap";
}
