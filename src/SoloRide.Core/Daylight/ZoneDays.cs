namespace SoloRide.Daylight;

/// <summary>Local days of a zone one after the other, without allocation; the same days as <see cref="ZoneOffsets.StartOfDay"/>.</summary>
internal struct ZoneDays
{
    private readonly IReadOnlyList<ZoneTransition> _transitions;
    private readonly long _firstOffset;
    private DateOnly _date;
    private long _start;
    private long _quietUntil;
    private long _offset;

    public ZoneDays(ZoneOffsets zone, DateOnly first)
    {
        _transitions = zone.Transitions;
        _firstOffset = zone.FirstOffset.Ticks;
        _date = first;
        _quietUntil = long.MinValue;
        _offset = 0;
        _start = 0;
        _start = StartOfDay(first);
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
            end = StartOfDay(next);
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

    /// <summary>The earliest instant [UTC ticks] whose local date is the day.</summary>
    private readonly long StartOfDay(DateOnly date)
    {
        long wall = date.DayNumber * TimeSpan.TicksPerDay, from = long.MinValue, offset = _firstOffset;
        for (int i = 0; ; i++)
        {
            long until = i < _transitions.Count ? _transitions[i].From.UtcTicks : long.MaxValue;

            // Midnight in this stretch of one offset, or the stretch begins inside the day because midnight was skipped.
            long midnight = wall - offset;
            if (midnight >= from && midnight < until)
            {
                return midnight;
            }

            if (midnight < from && from + offset < wall + TimeSpan.TicksPerDay)
            {
                return from;
            }

            if (until == long.MaxValue)
            {
                return wall - _firstOffset;
            }

            from = until;
            offset = _transitions[i].Offset.Ticks;
        }
    }

    private void Quiet()
    {
        _quietUntil = long.MaxValue;
        _offset = _firstOffset;
        for (int i = 0; i < _transitions.Count; i++)
        {
            if (_transitions[i].From.UtcTicks > _start)
            {
                _quietUntil = _transitions[i].From.UtcTicks;
                return;
            }

            _offset = _transitions[i].Offset.Ticks;
        }
    }
}
