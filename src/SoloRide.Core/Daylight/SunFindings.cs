namespace SoloRide.Daylight;

/// <summary>What results of sun and moon say of themselves: the free horizon, and the span for which series and clock are stated.</summary>
internal static class SunFindings
{
    public const int FirstYear = 1950, LastYear = 2100;

    private static readonly double FirstDay = TimeScaleKernel.Days(new DateTime(FirstYear, 1, 1, 0, 0, 0, DateTimeKind.Utc).Ticks);
    private static readonly double EndDay = TimeScaleKernel.Days(new DateTime(LastYear + 1, 1, 1, 0, 0, 0, DateTimeKind.Utc).Ticks);

    private static readonly Finding Horizon = new(
        DaylightFindingCodes.FreeHorizon, FindingSeverity.Note, "sun events", "Times assume a free horizon and a clear sky; walls, trees and cloud bring darkness earlier.");

    private static readonly Finding Span = new(
        DaylightFindingCodes.OutsideSpan, FindingSeverity.Warning, "sun and moon",
        "The date lies outside 1950 to 2100, for which the series and the clock of the turning Earth are stated; errors grow with the distance.");

    private static readonly IReadOnlyList<Finding> EventsInside = [Horizon], EventsOutside = [Horizon, Span], PositionInside = [], PositionOutside = [Span];

    /// <summary>Findings of results that depend on the horizon or the sky.</summary>
    public static IReadOnlyList<Finding> Events(bool outside) => outside ? EventsOutside : EventsInside;

    /// <summary>Findings of plain positions.</summary>
    public static IReadOnlyList<Finding> Position(bool outside) => outside ? PositionOutside : PositionInside;

    public static bool IsOutside(DateOnly date) => date.Year is < FirstYear or > LastYear;

    public static bool IsOutside(double utcDays) => !(utcDays >= FirstDay && utcDays < EndDay);
}
