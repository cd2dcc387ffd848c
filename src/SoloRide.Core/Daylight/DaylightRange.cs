using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>A day picked from a range of dates, with the instant that made it stand out.</summary>
/// <param name="Date">The local date.</param>
/// <param name="At">The instant, with the zone's offset.</param>
public readonly record struct DaylightExtreme(DateOnly Date, DateTimeOffset At);

/// <summary>Earliest and latest light over a range of dates: what the least favourable day of a trip still gives.</summary>
/// <remarks>Compared by clock time of the zone. Days on which an event does not happen are counted, not compared. Immutable; safe to share.</remarks>
[Entry]
public sealed record DaylightRange
{
    private DaylightRange(SunTimes[] days, DaylightExtreme?[] extremes, DateOnly shortest, TimeSpan shortestLength, DateOnly longest, TimeSpan longestLength, int withoutDusk)
    {
        Days = days;
        EarliestSunrise = extremes[0];
        LatestSunrise = extremes[1];
        EarliestSunset = extremes[2];
        LatestSunset = extremes[3];
        EarliestCivilDusk = extremes[4];
        LatestCivilDusk = extremes[5];
        EarliestCivilDawn = extremes[6];
        LatestCivilDawn = extremes[7];
        ShortestDay = shortest;
        ShortestDayLength = shortestLength;
        LongestDay = longest;
        LongestDayLength = longestLength;
        DaysWithoutCivilDusk = withoutDusk;
    }

    /// <summary>All days of the range.</summary>
    public IReadOnlyList<SunTimes> Days { get; }

    /// <summary>Earliest sunrise by the clock; null when there is none in the range.</summary>
    public DaylightExtreme? EarliestSunrise { get; }

    /// <summary>Latest sunrise by the clock.</summary>
    public DaylightExtreme? LatestSunrise { get; }

    /// <summary>Earliest sunset by the clock.</summary>
    public DaylightExtreme? EarliestSunset { get; }

    /// <summary>Latest sunset by the clock.</summary>
    public DaylightExtreme? LatestSunset { get; }

    /// <summary>Earliest civil dusk by the clock.</summary>
    public DaylightExtreme? EarliestCivilDusk { get; }

    /// <summary>Latest civil dusk by the clock.</summary>
    public DaylightExtreme? LatestCivilDusk { get; }

    /// <summary>Earliest civil dawn by the clock.</summary>
    public DaylightExtreme? EarliestCivilDawn { get; }

    /// <summary>Latest civil dawn by the clock.</summary>
    public DaylightExtreme? LatestCivilDawn { get; }

    /// <summary>The day with the least sun.</summary>
    public DateOnly ShortestDay { get; }

    /// <summary>Its sun, from rise to set under a free horizon.</summary>
    public TimeSpan ShortestDayLength { get; }

    /// <summary>The day with the most sun.</summary>
    public DateOnly LongestDay { get; }

    /// <summary>Its sun.</summary>
    public TimeSpan LongestDayLength { get; }

    /// <summary>Days on which civil dusk does not happen: twilight or day all night, or no light at all.</summary>
    public int DaysWithoutCivilDusk { get; }

    /// <summary>What to know about these results: free horizon, span of validity.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Events(SunFindings.IsOutside(Days[0].Date) || SunFindings.IsOutside(Days[^1].Date));

    /// <summary>Looks through a range of dates.</summary>
    /// <param name="first">The first local date.</param>
    /// <param name="last">The last local date; within ten years.</param>
    /// <param name="place">The observer.</param>
    /// <param name="zone">The clock of the place.</param>
    /// <param name="options">Horizon, UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The range.</returns>
    /// <exception cref="ArgumentNullException">The zone is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The range runs backward or is longer than ten years.</exception>
    public static DaylightRange Over(DateOnly first, DateOnly last, GeoPoint place, ZoneOffsets zone, DaylightOptions? options = null)
    {
        Guard.NotNull(zone);
        int count = Guard.InRange(last.DayNumber - first.DayNumber + 1, 1, 3660, "days", nameof(last));
        var days = new SunTimes[count];
        SolarDay.Table(first, place, zone, days, options);
        var extremes = new DaylightExtreme?[8];
        DateOnly shortest = first, longest = first;
        TimeSpan shortestLength = TimeSpan.MaxValue, longestLength = TimeSpan.MinValue;
        int withoutDusk = 0;
        foreach (SunTimes d in days)
        {
            Pick(extremes, 0, d.Date, d.Sunrise, zone);
            Pick(extremes, 2, d.Date, d.Sunset, zone);
            Pick(extremes, 4, d.Date, d.CivilDusk, zone);
            Pick(extremes, 6, d.Date, d.CivilDawn, zone);
            withoutDusk += d.CivilDusk is null ? 1 : 0;
            TimeSpan length = d.Sunrise is { } up && d.Sunset is { } down && down > up ? down - up : SolarDay.On(d.Date, place, zone, options).DayLength;
            if (length < shortestLength)
            {
                (shortest, shortestLength) = (d.Date, length);
            }

            if (length > longestLength)
            {
                (longest, longestLength) = (d.Date, length);
            }
        }

        return new DaylightRange(days, extremes, shortest, shortestLength, longest, longestLength, withoutDusk);
    }

    private static void Pick(DaylightExtreme?[] extremes, int i, DateOnly date, DateTimeOffset? utc, ZoneOffsets zone)
    {
        if (utc is not { } at)
        {
            return;
        }

        DateTimeOffset local = zone.ToLocal(at);
        if (extremes[i] is not { } early || local.TimeOfDay < early.At.TimeOfDay)
        {
            extremes[i] = new DaylightExtreme(date, local);
        }

        if (extremes[i + 1] is not { } late || local.TimeOfDay > late.At.TimeOfDay)
        {
            extremes[i + 1] = new DaylightExtreme(date, local);
        }
    }
}
