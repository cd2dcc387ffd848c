using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Days from 2000-01-01 12 h, and the difference between terrestrial time and the turning Earth.</summary>
internal static class TimeScaleKernel
{
    /// <summary>Ticks of 2000-01-01 12:00 UTC.</summary>
    public static readonly long EpochTicks = new DateTime(2000, 1, 1, 12, 0, 0, DateTimeKind.Utc).Ticks;

    /// <summary>Delta T kept from 2017 on [s]: 32.184 s and 37 leap seconds with UT1 equal to UTC.</summary>
    [Source("iers-leap-seconds", "TAI-UTC = 37 s from 2017-01-01; TT = TAI + 32.184 s")]
    public const double DeltaTFrom2017S = 69.184;

    /// <summary>UTC days from the epoch.</summary>
    public static double Days(long utcTicks) => (utcTicks - EpochTicks) / (double)TimeSpan.TicksPerDay;

    /// <summary>The instant of a number of days from the epoch, to the tick.</summary>
    public static long Ticks(double days)
    {
        double whole = Math.Floor(days);
        return EpochTicks + ((long)whole * TimeSpan.TicksPerDay) + (long)Math.Round((days - whole) * TimeSpan.TicksPerDay);
    }

    /// <summary>Terrestrial time minus UT1 [s] where the caller gives none.</summary>
    [Source("espenak-meeus-deltat", "pieces 1941 to 2050")]
    public static double DeltaTS(double utcDays)
    {
        // 2017-01-01 lies in the segment of sixteen days that begins 6208 days after the epoch; all of it counts as 2017.
        if (utcDays >= 6208)
        {
            return DeltaTFrom2017S;
        }

        double year = 2000 + ((utcDays + 0.5) / 365.25);

        double t;
        switch (year)
        {
            case >= 2005:
                t = year - 2000;
                return 62.92 + (t * (0.32217 + (t * 0.005589)));
            case >= 1986:
                t = year - 2000;
                return 63.86 + (t * (0.3345 + (t * (-0.060374 + (t * (0.0017275 + (t * (0.000651814 + (t * 0.00002373599)))))))));
            case >= 1961:
                t = year - 1975;
                return 45.45 + (t * (1.067 + (t * ((-1 / 260.0) - (t / 718)))));
            case >= 1941:
                t = year - 1950;
                return 29.07 + (t * (0.407 + (t * ((-1 / 233.0) + (t / 2547)))));
            default:
                // Before 1941 the caller gets a finding; the long-term parabola keeps the value meaningful.
                t = (year - 1820) / 100;
                return -20 + (32 * t * t);
        }
    }
}
