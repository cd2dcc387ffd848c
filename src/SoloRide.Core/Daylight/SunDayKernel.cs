using System.Runtime.CompilerServices;

namespace SoloRide.Daylight;

/// <summary>Events of one day from nothing, and of many days from shared segments.</summary>
internal static class SunDayKernel
{
    [SkipLocalsInit]
    public static void Cold(long startTicks, long endTicks, in ObserverFrame observer, DaylightOptions options, out DayEvents events)
    {
        double start = TimeScaleKernel.Days(startTicks), span = (endTicks - startTicks) / (double)TimeSpan.TicksPerDay;
        SunPath.Over(start, span, options.Ut1MinusUtcS, options.DeltaTSAt(start), out SunPath path);
        Span<double> sines = stackalloc double[4];
        Sines(options, sines);
        SunEventsKernel.Find(path, observer, sines, out events);
    }

    [SkipLocalsInit]
    public static void Table(DateOnly first, ZoneOffsets zone, in ObserverFrame observer, DaylightOptions options, Span<SunTimes> times)
    {
        Span<double> sines = stackalloc double[4];
        Sines(options, sines);
        SunSegment segment = default;
        bool any = false;
        var clock = new ZoneDays(zone, first);
        for (int i = 0; i < times.Length; i++)
        {
            clock.Next(out DateOnly date, out long startTicks, out long endTicks);
            double start = TimeScaleKernel.Days(startTicks), span = (endTicks - startTicks) / (double)TimeSpan.TicksPerDay;
            if (!any || !segment.Holds(start, span))
            {
                SunSegment.From(start, options.Ut1MinusUtcS, options.DeltaTSAt(start), out segment);
                any = true;
            }

            segment.Path(start, span, out SunPath path);
            SunEventsKernel.Find(path, observer, sines, out DayEvents events);
            times[i] = new SunTimes(date, startTicks, start, events);
        }
    }

    public static void Sines(DaylightOptions options, Span<double> sines)
    {
        sines[0] = Math.Sin(options.RiseSetRad);
        sines[1] = SkyLightKernel.SinCivil;
        sines[2] = SkyLightKernel.SinNautical;
        sines[3] = SkyLightKernel.SinAstronomical;
    }
}
