using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>
/// The Sun over one local civil day at one place: rise, set, transit, dawns and dusks, or the state why there is none.
/// </summary>
/// <remarks>
/// <para>The day runs from local midnight to the next, 23 or 25 hours on days of a clock change. Altitudes are topocentric and airless;
/// rise and set at −50′ less the dip. Times agree with a full reference pipeline within 0.1 s where the Sun crosses at 5″/s or faster and
/// within 1.5 s elsewhere; real refraction near the horizon moves sunrise and sunset by half a minute and more.</para>
/// <para>All of it is for a free horizon and a clear sky: walls, trees and cloud bring darkness earlier. Immutable; safe to share.</para>
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record SolarDay
{
    private readonly double _transitAltitudeRad, _lowestRad, _highestRad;

    private SolarDay(DateOnly date, GeoPoint place, ZoneOffsets zone, DateTimeOffset starts, DateTimeOffset ends, in DayEvents e)
    {
        Date = date;
        Place = place;
        Starts = starts;
        Ends = ends;
        Sunrise = SunEvent.Of(zone, starts.UtcTicks, e.Up[0], e.SecondUp[0], e.ThirdUp[0], e.State(0));
        Sunset = SunEvent.Of(zone, starts.UtcTicks, e.Down[0], e.SecondDown[0], e.ThirdDown[0], e.State(0));
        CivilDawn = SunEvent.Of(zone, starts.UtcTicks, e.Up[1], e.SecondUp[1], e.ThirdUp[1], e.State(1));
        CivilDusk = SunEvent.Of(zone, starts.UtcTicks, e.Down[1], e.SecondDown[1], e.ThirdDown[1], e.State(1));
        NauticalDawn = SunEvent.Of(zone, starts.UtcTicks, e.Up[2], e.SecondUp[2], e.ThirdUp[2], e.State(2));
        NauticalDusk = SunEvent.Of(zone, starts.UtcTicks, e.Down[2], e.SecondDown[2], e.ThirdDown[2], e.State(2));
        AstronomicalDawn = SunEvent.Of(zone, starts.UtcTicks, e.Up[3], e.SecondUp[3], e.ThirdUp[3], e.State(3));
        AstronomicalDusk = SunEvent.Of(zone, starts.UtcTicks, e.Down[3], e.SecondDown[3], e.ThirdDown[3], e.State(3));
        Transit = SunEvent.Of(zone, starts.UtcTicks, e.Transit, e.SecondTransit, e.ThirdTransit, CrossingState.Crosses);
        _transitAltitudeRad = e.TransitAltitudeRad;
        _lowestRad = Math.Asin(Math.Clamp(e.LowestSin, -1, 1));
        _highestRad = Math.Asin(Math.Clamp(e.HighestSin, -1, 1));
        Findings = SunFindings.Events(SunFindings.IsOutside(date));
    }

    /// <summary>The local date.</summary>
    public DateOnly Date { get; }

    /// <summary>The observer.</summary>
    public GeoPoint Place { get; }

    /// <summary>Local midnight at which the day begins.</summary>
    public DateTimeOffset Starts { get; }

    /// <summary>Local midnight at which it ends.</summary>
    public DateTimeOffset Ends { get; }

    /// <summary>The Sun's centre rises through −18°.</summary>
    public SunEvent AstronomicalDawn { get; }

    /// <summary>The Sun's centre rises through −12°.</summary>
    public SunEvent NauticalDawn { get; }

    /// <summary>The Sun's centre rises through −6°.</summary>
    public SunEvent CivilDawn { get; }

    /// <summary>The upper limb appears on a free horizon.</summary>
    public SunEvent Sunrise { get; }

    /// <summary>The centre crosses the meridian.</summary>
    public SunEvent Transit { get; }

    /// <summary>The upper limb disappears below a free horizon.</summary>
    public SunEvent Sunset { get; }

    /// <summary>The Sun's centre sinks through −6°.</summary>
    public SunEvent CivilDusk { get; }

    /// <summary>The Sun's centre sinks through −12°.</summary>
    public SunEvent NauticalDusk { get; }

    /// <summary>The Sun's centre sinks through −18°.</summary>
    public SunEvent AstronomicalDusk { get; }

    /// <summary>Airless altitude at transit; null when there is no transit in the day.</summary>
    public Angle? TransitAltitude => double.IsNaN(_transitAltitudeRad) ? null : Angle.FromRadians(_transitAltitudeRad);

    /// <summary>Highest airless altitude of the day.</summary>
    public Angle HighestAltitude => Angle.FromRadians(_highestRad);

    /// <summary>Lowest airless altitude of the day.</summary>
    public Angle LowestAltitude => Angle.FromRadians(_lowestRad);

    /// <summary>Time within the day with the Sun above the horizon (its altitude of rise and set).</summary>
    public TimeSpan DayLength => Above(Sunrise, Sunset);

    /// <summary>Time within the day that is day or civil twilight: when a trail is seen without lights under a clear, free sky.</summary>
    public TimeSpan UsableLight => Above(CivilDawn, CivilDusk);

    /// <summary>What to know about these results: span of validity, free horizon.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The Sun's events of a local day.</summary>
    /// <param name="date">The local date.</param>
    /// <param name="place">The observer; an unknown height counts as 0 m.</param>
    /// <param name="zone">The clock of the place.</param>
    /// <param name="options">Horizon, UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The day.</returns>
    /// <exception cref="ArgumentNullException">The zone is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The date is the first or last day that the calendar type knows.</exception>
    public static SolarDay On(DateOnly date, GeoPoint place, ZoneOffsets zone, DaylightOptions? options = null)
    {
        Guard.NotNull(zone);
        options ??= DaylightOptions.Default;
        (DateTimeOffset starts, DateTimeOffset ends) = Window(date, zone);
        SunDayKernel.Cold(starts.UtcTicks, ends.UtcTicks, SolarPosition.Observer(place), options, out DayEvents events);
        return new SolarDay(date, place, zone, starts, ends, events);
    }

    /// <summary>Days in a row, computed at table speed.</summary>
    /// <param name="first">The first local date.</param>
    /// <param name="place">The observer.</param>
    /// <param name="zone">The clock of the place.</param>
    /// <param name="times">Receives as many days as it is long.</param>
    /// <param name="options">Horizon, UT1 and ΔT; null takes the defaults.</param>
    /// <exception cref="ArgumentNullException">The zone is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The days reach the first or last that the calendar type knows.</exception>
    public static void Table(DateOnly first, GeoPoint place, ZoneOffsets zone, Span<SunTimes> times, DaylightOptions? options = null)
    {
        Guard.NotNull(zone);
        options ??= DaylightOptions.Default;
        if (times.Length == 0)
        {
            return;
        }

        _ = CheckDate(first.DayNumber + times.Length - 1, nameof(times));
        SunDayKernel.Table(first, zone, SolarPosition.Observer(place), options, times);
    }

    /// <summary>The light phase at an instant of this day, by the day's events.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="options">As given to <see cref="On"/>.</param>
    /// <returns>The phase under a free horizon and a clear sky.</returns>
    public LightPhase PhaseAt(DateTimeOffset instant, DaylightOptions? options = null) => SolarPosition.At(instant, Place, options).Phase;

    /// <summary>The day on one line.</summary>
    /// <returns>Text; invariant culture.</returns>
    public override string ToString()
        => string.Create(CultureInfo.InvariantCulture, $"{Date:yyyy-MM-dd} {Place}: dawn {CivilDawn}, sunrise {Sunrise}, sunset {Sunset}, dusk {CivilDusk} (civil; free horizon, clear sky)");

    internal static (DateTimeOffset Starts, DateTimeOffset Ends) Window(DateOnly date, ZoneOffsets zone)
    {
        _ = CheckDate(date.DayNumber, nameof(date));
        DateTimeOffset starts = zone.StartOfDay(date), ends = zone.StartOfDay(date.AddDays(1));
        return (starts, ends > starts ? ends : starts.AddDays(1));
    }

    private static int CheckDate(int dayNumber, string name)
        => Guard.InRange(dayNumber, DateOnly.MinValue.DayNumber + 2, DateOnly.MaxValue.DayNumber - 2, "days from 0001-01-01", name);

    private TimeSpan Above(SunEvent up, SunEvent down)
    {
        if (up.At is null && down.At is null)
        {
            return up.State == SunEventState.AlwaysAbove ? Ends - Starts : TimeSpan.Zero;
        }

        // Each setting closes what a rising or the day's start opened.
        TimeSpan sum = TimeSpan.Zero;
        DateTimeOffset? open = up.At is null || (down.At is { } first && first < up.At) ? Starts : null;
        foreach ((DateTimeOffset At, bool Up) e in up.All.Select(at => (At: at, Up: true)).Concat(down.All.Select(at => (At: at, Up: false))).OrderBy(e => e.At))
        {
            if (e.Up)
            {
                open ??= e.At;
            }
            else if (open is { } o)
            {
                sum += e.At - o;
                open = null;
            }
        }

        return open is { } last ? sum + (Ends - last) : sum;
    }
}
