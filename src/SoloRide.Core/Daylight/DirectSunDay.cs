using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Direct sun at one place over a local day, behind a skyline.</summary>
/// <remarks>
/// Shade tells temperature and ice, not twilight: the sky stays light until the Sun is deep below the true horizon, less in a narrow valley
/// by the sky-view factor. Immutable; safe to share.
/// </remarks>
[Entry]
public sealed record DirectSunDay
{
    private DirectSunDay(DateOnly date, SolarDay sun, HorizonProfile horizon, SunSpell[] spells)
    {
        Date = date;
        Sun = sun;
        Horizon = horizon;
        Spells = spells;
        Findings = [.. sun.Findings, .. horizon.Findings];
    }

    /// <summary>The local date.</summary>
    public DateOnly Date { get; }

    /// <summary>The day under a free horizon.</summary>
    public SolarDay Sun { get; }

    /// <summary>The skyline.</summary>
    public HorizonProfile Horizon { get; }

    /// <summary>Spells of direct sun, in order; several where notches let it through.</summary>
    public IReadOnlyList<SunSpell> Spells { get; }

    /// <summary>First direct sun; null when there is none.</summary>
    public DateTimeOffset? FirstSun => Spells.Count == 0 ? null : Spells[0].From;

    /// <summary>Last direct sun; null when there is none.</summary>
    public DateTimeOffset? LastSun => Spells.Count == 0 ? null : Spells[^1].To;

    /// <summary>All direct sun of the day.</summary>
    public TimeSpan DirectSun => Spells.Aggregate(TimeSpan.Zero, (sum, s) => sum + s.Length);

    /// <summary>What to know about the result.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Direct sun over a local day.</summary>
    /// <param name="date">The local date.</param>
    /// <param name="place">The observer.</param>
    /// <param name="zone">The clock of the place.</param>
    /// <param name="horizon">The skyline there.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <param name="airFactor">[0 to 1.5] Refraction over the standard one of 34′ at the horizon; pressure over 1010 hPa at the place; 1 by default.</param>
    /// <returns>The day.</returns>
    /// <exception cref="ArgumentNullException">Zone or horizon is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Air factor or date is outside its range.</exception>
    public static DirectSunDay On(
        DateOnly date, GeoPoint place, ZoneOffsets zone, HorizonProfile horizon, DaylightOptions? options = null, double airFactor = 1)
    {
        Guard.NotNull(zone);
        Guard.NotNull(horizon);
        Guard.InRange(airFactor, 0, 1.5, "(no unit)");
        options ??= DaylightOptions.Default;
        SolarDay sun = SolarDay.On(date, place, zone, options);
        double start = TimeScaleKernel.Days(sun.Starts.UtcTicks), span = (sun.Ends - sun.Starts).TotalDays;
        ObserverFrame observer = SolarPosition.Observer(place);
        SunPath.Over(start, span, options.Ut1MinusUtcS, options.DeltaTSAt(start), out SunPath path);

        // Half a minute is 0.125 deg of the Sun's way: no notch of a profile of half-degree steps is missed.
        int steps = (int)Math.Ceiling(span * 2880);
        var spells = new List<SunSpell>();
        double? open = null;
        double before = Above(-1);
        if (before > 0)
        {
            open = 0;
        }

        for (int i = 1; i <= steps; i++)
        {
            double u = -1 + (2.0 * i / steps);
            double after = Above(u);
            if ((before > 0) != (after > 0))
            {
                double lo = -1 + (2.0 * (i - 1) / steps), hi = u;
                bool rising = after > 0;
                for (int k = 0; k < 16; k++)
                {
                    double mid = 0.5 * (lo + hi);
                    if ((Above(mid) > 0) == rising)
                    {
                        hi = mid;
                    }
                    else
                    {
                        lo = mid;
                    }
                }

                double at = (0.5 * (lo + hi) + 1) * (span / 2);
                if (rising)
                {
                    open = at;
                }
                else if (open is { } from)
                {
                    spells.Add(Spell(from, at));
                    open = null;
                }
            }

            before = after;
        }

        if (open is { } last)
        {
            spells.Add(Spell(last, span));
        }

        return new DirectSunDay(date, sun, horizon, [.. spells]);

        double Above(double u)
        {
            path.Topocentric(u, observer, out double azimuth, out double altitude);
            return altitude - SunShadeKernel.ThresholdRad(horizon.AltitudeRad(azimuth), airFactor);
        }

        SunSpell Spell(double from, double to) => new(Local(from), Local(to));

        DateTimeOffset Local(double days) => zone.ToLocal(new DateTimeOffset(SunTimes.Ticks(sun.Starts.UtcTicks, days), TimeSpan.Zero));
    }
}
