using System.Diagnostics.CodeAnalysis;

namespace SoloRide.Daylight;

/// <summary>The Sun for a run of times: keeps the sixteen-day segment and the cubic of the two days that were used last.</summary>
internal struct SunTrack
{
    public const double CellDays = 2;

    private readonly DaylightOptions _options;
    private SunSegment _segment;
    private SunPath _path;
    private bool _any;

    public SunTrack(DaylightOptions options)
    {
        _options = options;
        _segment = default;
        _path = default;
        _any = false;
    }

    /// <summary>The cubic that was sought last.</summary>
    [UnscopedRef]
    public readonly ref readonly SunPath Path => ref _path;

    /// <summary>
    /// Brings the cubic to the two days that hold a time. Cells and segments lie on a fixed lattice, so the value at a time does not depend on
    /// the times asked before.
    /// </summary>
    public void Seek(double utcDays)
    {
        double start = Math.Floor(utcDays / CellDays) * CellDays;
        if (_any && _path.StartDays == start)
        {
            return;
        }

        double segmentStart = Math.Floor(start / SunSegment.Days) * SunSegment.Days;
        if (!_any || _segment.StartDays != segmentStart)
        {
            SunSegment.From(segmentStart, _options.Ut1MinusUtcS, _options.DeltaTSAt(segmentStart), out _segment);
            _any = true;
        }

        _segment.Path(start, CellDays, out _path);
    }
}
