using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>
/// The events of one local day as plain instants in UTC, for tables of many days: no allocation. <see cref="SolarDay"/> says more about one.
/// </summary>
/// <remarks>
/// <c>default</c> holds no event. Each event is the first of its kind in the day; <see cref="HasMore"/> tells whether one happens again, and
/// <see cref="SolarDay"/> has all.
/// </remarks>
public readonly record struct SunTimes
{
    private readonly long _start, _astronomicalDawn, _nauticalDawn, _civilDawn, _sunrise, _transit, _sunset, _civilDusk, _nauticalDusk, _astronomicalDusk;
    private readonly byte _states;

    internal SunTimes(DateOnly date, long startTicks, double startDays, in DayEvents e)
    {
        Date = date;
        _start = startTicks;
        _sunrise = Ticks(startTicks, e.Up[0]);
        _civilDawn = Ticks(startTicks, e.Up[1]);
        _nauticalDawn = Ticks(startTicks, e.Up[2]);
        _astronomicalDawn = Ticks(startTicks, e.Up[3]);
        _sunset = Ticks(startTicks, e.Down[0]);
        _civilDusk = Ticks(startTicks, e.Down[1]);
        _nauticalDusk = Ticks(startTicks, e.Down[2]);
        _astronomicalDusk = Ticks(startTicks, e.Down[3]);
        _transit = Ticks(startTicks, e.Transit);
        _states = (byte)((int)e.State0 | ((int)e.State1 << 2) | ((int)e.State2 << 4) | ((int)e.State3 << 6));
        HasMore = e.AnySecond;
    }

    /// <summary>The local date.</summary>
    public DateOnly Date { get; }

    /// <summary>The instant at which the local day begins, in UTC.</summary>
    public DateTimeOffset Starts => new(_start, TimeSpan.Zero);

    /// <summary>The Sun's centre rises through −18°; null when it does not.</summary>
    public DateTimeOffset? AstronomicalDawn => Instant(_astronomicalDawn);

    /// <summary>The Sun's centre rises through −12°.</summary>
    public DateTimeOffset? NauticalDawn => Instant(_nauticalDawn);

    /// <summary>The Sun's centre rises through −6°.</summary>
    public DateTimeOffset? CivilDawn => Instant(_civilDawn);

    /// <summary>Sunrise.</summary>
    public DateTimeOffset? Sunrise => Instant(_sunrise);

    /// <summary>The Sun's centre crosses the meridian.</summary>
    public DateTimeOffset? Transit => Instant(_transit);

    /// <summary>Sunset.</summary>
    public DateTimeOffset? Sunset => Instant(_sunset);

    /// <summary>The Sun's centre sinks through −6°.</summary>
    public DateTimeOffset? CivilDusk => Instant(_civilDusk);

    /// <summary>The Sun's centre sinks through −12°.</summary>
    public DateTimeOffset? NauticalDusk => Instant(_nauticalDusk);

    /// <summary>The Sun's centre sinks through −18°.</summary>
    public DateTimeOffset? AstronomicalDusk => Instant(_astronomicalDusk);

    /// <summary>Whether the Sun crosses the altitude of rise and set in the day, or stays above or below it.</summary>
    public SunEventState HorizonState => State(0);

    /// <summary>Whether the Sun crosses −6° in the day, or stays above or below it.</summary>
    public SunEventState CivilState => State(1);

    /// <summary>Whether the Sun crosses −12° in the day, or stays above or below it.</summary>
    public SunEventState NauticalState => State(2);

    /// <summary>Whether the Sun crosses −18° in the day, or stays above or below it.</summary>
    public SunEventState AstronomicalState => State(3);

    /// <summary>Whether an event happens more than once in the day.</summary>
    public bool HasMore { get; }

    /// <summary>What to know about these results: free horizon, span of validity.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Events(SunFindings.IsOutside(Date));

    internal static long Ticks(long startTicks, double days)
        => double.IsNaN(days) ? 0 : startTicks + (long)Math.Round(days * TimeSpan.TicksPerDay);

    private SunEventState State(int kind) => SunEvent.StateOf((CrossingState)(_states >> (2 * kind) & 3), SunEventState.Occurs);

    private static DateTimeOffset? Instant(long ticks) => ticks == 0 ? null : new DateTimeOffset(ticks, TimeSpan.Zero);
}
