namespace SoloRide.Daylight;

/// <summary>Local days of a zone one after the other, without searching its transitions anew for days that no change of the clock touches.</summary>
internal struct ZoneDays
{
    private readonly ZoneOffsets _zone;
    private DateOnly _date;
    private long _start;
    private long _quietUntil;
    private long _offset;

    public ZoneDays(ZoneOffsets zone, DateOnly first)
    {
        _zone = zone;
        _date = first;
        _start = zone.StartOfDay(first).UtcTicks;
        _quietUntil = 0;
        _offset = 0;
        Quiet();
    }

    /// <summary>The next local day.</summary>
    public void Next(out DateOnly date, out long startTicks, out long endTicks)
    {
        date = _date;
        startTicks = _start;
        DateOnly next = _date.AddDays(1);
        long end = (next.DayNumber * TimeSpan.TicksPerDay) - _offset;
        if (end + TimeSpan.TicksPerDay >= _quietUntil)
        {
            end = _zone.StartOfDay(next).UtcTicks;
        }

        if (end <= startTicks)
        {
            // A day that the clock skips altogether: it is given the length of a common day.
            end = startTicks + TimeSpan.TicksPerDay;
        }

        endTicks = end;
        _date = next;
        _start = end;
        if (end >= _quietUntil)
        {
            Quiet();
        }
    }

    private void Quiet()
    {
        _quietUntil = long.MaxValue;
        var at = new DateTimeOffset(_start, TimeSpan.Zero);
        _offset = _zone.OffsetAt(at).Ticks;
        for (int i = 0; i < _zone.Transitions.Count; i++)
        {
            if (_zone.Transitions[i].From.UtcTicks > _start)
            {
                _quietUntil = _zone.Transitions[i].From.UtcTicks;
                return;
            }
        }
    }
}
