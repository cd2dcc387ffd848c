using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>
/// The events of one local day as plain instants in UTC, for tables of many days: no allocation. <see cref="SolarDay"/> says more about one.
/// </summary>
/// <remarks><c>default</c> holds no event. A second crossing of one kind within a day is only in <see cref="SolarDay"/>.</remarks>
public readonly record struct SunTimes
{
    private readonly long _start, _astronomicalDawn, _nauticalDawn, _civilDawn, _sunrise, _transit, _sunset, _civilDusk, _nauticalDusk, _astronomicalDusk;

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

    internal static long Ticks(long startTicks, double days)
        => double.IsNaN(days) ? 0 : startTicks + (long)Math.Round(days * TimeSpan.TicksPerDay);

    private static DateTimeOffset? Instant(long ticks) => ticks == 0 ? null : new DateTimeOffset(ticks, TimeSpan.Zero);
}
