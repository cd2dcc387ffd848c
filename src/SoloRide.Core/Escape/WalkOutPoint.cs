using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>The way out from one place of the route.</summary>
/// <param name="AlongRoute">Distance from the start of the route.</param>
/// <param name="Time">Time out; null when there is no way out.</param>
/// <param name="Distance">Length of the way out; null when there is none.</param>
/// <param name="Exit">Name of the nearest exit by time; null when there is none.</param>
/// <param name="Way">Where the way out begins.</param>
/// <param name="Trail">Name of the first trail beside the route that the way uses; null when it stays on the route.</param>
/// <param name="UsesStraightLine">Whether part of the way is a straight line over unknown ground: a lower grade of answer.</param>
public sealed record WalkOutPoint(
    Length AlongRoute, Estimate<TimeSpan>? Time, Length? Distance, string? Exit, WayOut Way, string? Trail, bool UsesStraightLine)
{
    /// <summary>Place, time with its range, length and exit on one line.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString()
    {
        string km = $"km {Text.F(AlongRoute.Kilometers, 1)}: ";
        if (Time is not { } time)
        {
            return km + "no way out";
        }

        string way = Way switch
        {
            WayOut.Here => "at the exit",
            WayOut.On => "on along the route",
            WayOut.Back => "back along the route",
            WayOut.SideTrail => "by a side trail",
            WayOut.StraightLine => "straight over unknown ground",
            WayOut.OtherPass => "by another part of the route",
            _ => "way not known",
        };
        string to = Exit is { } exit ? " to " + exit : "";
        string by = Trail is { } trail ? $" ({trail})" : "";
        string length = Distance is { } d ? $", {EstimateText.One(d)}" : "";
        string straight = UsesStraightLine && Way != WayOut.StraightLine ? ", in part straight over unknown ground" : "";
        return $"{km}{time}{to}, {way}{by}{length}{straight}";
    }
}
