using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>The Moon over one local civil day: rise, set and transit, or the state why there is none.</summary>
/// <remarks>
/// Rise and set of the upper limb on a free horizon (34′ of refraction and the Moon's own radius). A day without a rise or a set happens
/// once a month everywhere. Immutable; safe to share.
/// </remarks>
[Entry]
public sealed record MoonDay
{
    private const int StepsPerDay = 72;

    private MoonDay(DateOnly date, GeoPoint place, SunEvent rise, SunEvent set, SunEvent transit)
    {
        Date = date;
        Place = place;
        Moonrise = rise;
        Moonset = set;
        Transit = transit;
    }

    /// <summary>The local date.</summary>
    public DateOnly Date { get; }

    /// <summary>The observer.</summary>
    public GeoPoint Place { get; }

    /// <summary>The upper limb appears.</summary>
    public SunEvent Moonrise { get; }

    /// <summary>The upper limb disappears.</summary>
    public SunEvent Moonset { get; }

    /// <summary>The Moon crosses the meridian.</summary>
    public SunEvent Transit { get; }

    /// <summary>What to know about these results: free horizon, span of validity.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Events(SunFindings.IsOutside(Date));

    /// <summary>The Moon's events of a local day.</summary>
    /// <param name="date">The local date.</param>
    /// <param name="place">The observer.</param>
    /// <param name="zone">The clock of the place.</param>
    /// <param name="options">UT1, ΔT and dip; null takes the defaults.</param>
    /// <returns>The day.</returns>
    /// <exception cref="ArgumentNullException">The zone is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The date is the first or last day that the calendar type knows.</exception>
    public static MoonDay On(DateOnly date, GeoPoint place, ZoneOffsets zone, DaylightOptions? options = null)
    {
        Guard.NotNull(zone);
        options ??= DaylightOptions.Default;
        (DateTimeOffset starts, DateTimeOffset ends) = SolarDay.Window(date, zone);
        double start = TimeScaleKernel.Days(starts.UtcTicks), span = (ends - starts).TotalDays;
        double deltaT = options.DeltaTSAt(start), dip = RefractionKernel.DipRad(options.HeightAboveHorizon.Meters);
        ObserverFrame observer = SolarPosition.Observer(place);
        int steps = (int)Math.Ceiling(span * StepsPerDay);
        var points = new List<(double T, double Height)>(steps + 5);
        var transits = new List<double>(2);
        double hourAngle = 0;
        for (int i = 0; i <= steps; i++)
        {
            double t = span * i / steps;
            double h = Height(t, out double angle);
            if (i > 0 && Math.Sin(hourAngle) < 0 && Math.Sin(angle) >= 0 && Math.Cos(angle) > 0)
            {
                transits.Add(Bisect(span * (i - 1) / steps, t, x => Height(x, out double at) is var _ && Math.Sin(at) >= 0));
            }

            hourAngle = angle;
            points.Add((t, h));
        }

        // Where three samples turn toward the horizon without reaching it, the extreme between them may: it becomes a point of its own.
        for (int i = points.Count - 2; i > 0; i--)
        {
            double sign = points[i].Height > 0 ? 1 : -1;
            double before = sign * points[i - 1].Height, here = sign * points[i].Height, after = sign * points[i + 1].Height;
            if (here <= before && here <= after && before > 0 && after > 0)
            {
                double at = Lowest(points[i - 1].T, points[i + 1].T, x => sign * Height(x, out _));
                points.Insert(at < points[i].T ? i : i + 1, (at, Height(at, out _)));
            }
        }

        var rises = new List<double>(2);
        var sets = new List<double>(2);
        for (int i = 1; i < points.Count; i++)
        {
            bool up = points[i].Height > 0;
            if (up != points[i - 1].Height > 0)
            {
                (up ? rises : sets).Add(Bisect(points[i - 1].T, points[i].T, x => Height(x, out _) > 0 == up));
            }
        }

        bool everAbove = points.Exists(p => p.Height > 0), everBelow = points.Exists(p => p.Height <= 0);
        CrossingState state = everAbove && everBelow ? CrossingState.Crosses : everAbove ? CrossingState.AlwaysAbove : CrossingState.AlwaysBelow;
        return new MoonDay(date, place, Event(rises, state), Event(sets, state), Event(transits, CrossingState.Crosses));

        double Height(double t, out double hourAngleRad)
        {
            MoonKernel.Horizontal(start + t, options.Ut1MinusUtcS, deltaT, observer, out double altitude, out hourAngleRad, out double distance);
            return altitude + (SunShadeKernel.HorizonRefractionDeg * (Math.PI / 180)) + Math.Asin(MoonKernel.RadiusRatio * ObserverFrame.EquatorM / distance) + dip;
        }

        static double Bisect(double lo, double hi, Func<double, bool> past)
        {
            // To a few milliseconds from twenty minutes.
            for (int k = 0; k < 20; k++)
            {
                double mid = 0.5 * (lo + hi);
                if (past(mid))
                {
                    hi = mid;
                }
                else
                {
                    lo = mid;
                }
            }

            return 0.5 * (lo + hi);
        }

        static double Lowest(double lo, double hi, Func<double, double> value)
        {
            for (int k = 0; k < 24; k++)
            {
                double x = lo + ((hi - lo) / 3), y = hi - ((hi - lo) / 3);
                if (value(x) < value(y))
                {
                    hi = y;
                }
                else
                {
                    lo = x;
                }
            }

            return 0.5 * (lo + hi);
        }

        SunEvent Event(List<double> times, CrossingState crossing)
            => SunEvent.Of(zone, starts.UtcTicks, At(times, 0), At(times, 1), At(times, 2), crossing);

        static double At(List<double> times, int i) => i < times.Count ? times[i] : double.NaN;
    }
}
