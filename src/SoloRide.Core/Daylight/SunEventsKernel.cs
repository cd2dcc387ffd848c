using System.Runtime.CompilerServices;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>
/// Crossings of four altitudes, transit and extremes of altitude inside a window, from the cubic path. Between neighbouring extremes the
/// altitude runs one way, so each sign change holds exactly one crossing and none can be missed, however short.
/// </summary>
internal static class SunEventsKernel
{
    /// <summary>Centre of the Sun at rise and set: 16 arcmin of radius and 34 arcmin of refraction below the horizon [deg].</summary>
    [Source("almanac-rise-set", "50 arcmin")]
    public const double RiseSetAltitudeDeg = -50.0 / 60;

    [Source("almanac-rise-set", "civil, nautical and astronomical twilight")]
    public const double CivilDeg = -6, NauticalDeg = -12, AstronomicalDeg = -18;

    // Beyond this the extremes of altitude leave the meridian by degrees and are searched on a grid instead.
    private const double GridLatitudeCos = 0.0175;
    private const int GridPoints = 97;
    private const int MaxBreaks = 12;
    private const double TimeToleranceU = 1e-7;

    /// <summary>Finds all events of a window.</summary>
    /// <param name="path">The Sun over the window.</param>
    /// <param name="observer">The observer.</param>
    /// <param name="sines">Sines of the four altitudes, falling.</param>
    /// <param name="events">Receives the events.</param>
    [SkipLocalsInit]
    public static void Find(in SunPath path, in ObserverFrame observer, ReadOnlySpan<double> sines, out DayEvents events)
    {
        Unsafe.SkipInit(out events);
        Span<double> at = stackalloc double[MaxBreaks], up = stackalloc double[MaxBreaks], norm = stackalloc double[MaxBreaks];
        var sky = new Sky(path, observer);
        int breaks = Math.Abs(observer.CosLat) > GridLatitudeCos ? MeridianBreaks(sky, at) : GridBreaks(sky, at);
        double lowest = double.PositiveInfinity, highest = double.NegativeInfinity;
        for (int i = 0; i < breaks; i++)
        {
            sky.Height(at[i], out up[i], out norm[i]);
            double s = up[i] / norm[i];
            lowest = Math.Min(lowest, s);
            highest = Math.Max(highest, s);
        }

        events.LowestSin = lowest;
        events.HighestSin = highest;
        double half = path.HalfDays;
        for (int k = 0; k < 4; k++)
        {
            double sin = sines[k];
            double u1 = double.NaN, u2 = double.NaN, u3 = double.NaN, d1 = double.NaN, d2 = double.NaN, d3 = double.NaN;
            bool anyAbove = false, anyBelow = false;
            double before = up[0] - (sin * norm[0]);
            for (int i = 1; i < breaks; i++)
            {
                double after = up[i] - (sin * norm[i]);
                anyAbove |= before > 0 || after > 0;
                anyBelow |= before <= 0 || after <= 0;
                if (before <= 0 && after > 0)
                {
                    double t = (sky.Solve(at[i - 1], at[i], before, after, sin, rising: true) + 1) * half;
                    Next(t, ref u1, ref u2, ref u3);
                }
                else if (before > 0 && after <= 0)
                {
                    double t = (sky.Solve(at[i - 1], at[i], before, after, sin, rising: false) + 1) * half;
                    Next(t, ref d1, ref d2, ref d3);
                }

                before = after;
            }

            events.Up[k] = u1;
            events.SecondUp[k] = u2;
            events.ThirdUp[k] = u3;
            events.Down[k] = d1;
            events.SecondDown[k] = d2;
            events.ThirdDown[k] = d3;
            CrossingState state = anyAbove && anyBelow ? CrossingState.Crosses : anyAbove ? CrossingState.AlwaysAbove : CrossingState.AlwaysBelow;
            switch (k)
            {
                case 0: events.State0 = state; break;
                case 1: events.State1 = state; break;
                case 2: events.State2 = state; break;
                default: events.State3 = state; break;
            }
        }

        Transits(sky, out double first, out double second, out double third);
        events.Transit = (first + 1) * half;
        events.SecondTransit = (second + 1) * half;
        events.ThirdTransit = (third + 1) * half;
        if (double.IsNaN(first))
        {
            events.TransitAltitudeRad = double.NaN;
        }
        else
        {
            sky.Height(first, out double upTransit, out double normTransit);
            events.TransitAltitudeRad = Math.Asin(Math.Clamp(upTransit / normTransit, -1, 1));
        }
    }

    // A local day lasts at most 52 h (a clock set back by 28 h), in which no event happens four times.
    private static void Next(double t, ref double first, ref double second, ref double third)
    {
        if (double.IsNaN(first))
        {
            first = t;
        }
        else if (double.IsNaN(second))
        {
            second = t;
        }
        else
        {
            third = t;
        }
    }

    /// <summary>Window ends and the extremes of altitude between them, which lie close to the meridian.</summary>
    private static int MeridianBreaks(in Sky sky, Span<double> at)
    {
        const double shift = 0.08;
        int n = 0;
        at[n++] = -1;
        double first = sky.HourAngle(-1), last = sky.HourAngle(1);
        int from = (int)Math.Ceiling((first - shift) / Math.PI), to = (int)Math.Floor((last + shift) / Math.PI);
        for (int k = from; k <= to && n < MaxBreaks - 1; k++)
        {
            double u = sky.AtHourAngle(k * Math.PI);
            double turn = (k & 1) == 0 ? 1 : -1;
            u = sky.Extreme(u, turn);
            if (u > at[n - 1] && u < 1)
            {
                at[n++] = u;
            }
        }

        at[n++] = 1;
        return n;
    }

    /// <summary>Window ends and the extremes of altitude, from sign changes of its rate on a grid: for the surroundings of the poles.</summary>
    private static int GridBreaks(in Sky sky, Span<double> at)
    {
        int n = 0;
        at[n++] = -1;
        double left = -1, rateLeft = sky.Rate(-1);
        for (int i = 1; i < GridPoints && n < MaxBreaks - 1; i++)
        {
            double right = -1 + (2.0 * i / (GridPoints - 1)), rateRight = sky.Rate(right);
            if ((rateLeft < 0) != (rateRight < 0))
            {
                double lo = left, hi = right;
                bool loNegative = rateLeft < 0;
                for (int j = 0; j < 40; j++)
                {
                    double mid = 0.5 * (lo + hi);
                    if ((sky.Rate(mid) < 0) == loNegative)
                    {
                        lo = mid;
                    }
                    else
                    {
                        hi = mid;
                    }
                }

                double u = 0.5 * (lo + hi);
                if (u > at[n - 1] && u < 1)
                {
                    at[n++] = u;
                }
            }

            left = right;
            rateLeft = rateRight;
        }

        at[n++] = 1;
        return n;
    }

    private static void Transits(in Sky sky, out double first, out double second, out double third)
    {
        first = second = third = double.NaN;
        double from = sky.HourAngle(-1), to = sky.HourAngle(1);

        // Topocentric hour angle 0: diurnal aberration moves it by 0.02 s.
        double target = sky.AberrationHourAngle;
        for (double k = Math.Ceiling((from - target) / (2 * Math.PI)); (k * 2 * Math.PI) + target < to; k++)
        {
            double u = sky.AtHourAngle((k * 2 * Math.PI) + target);
            if (u < -1 || u >= 1)
            {
                continue;
            }

            Next(u, ref first, ref second, ref third);
        }
    }

    /// <summary>The path as one observer sees it.</summary>
    private readonly ref struct Sky(in SunPath path, in ObserverFrame observer)
    {
        private readonly ref readonly SunPath _path = ref path;
        private readonly double _cos = observer.CosLat, _sin = observer.SinLat, _lon = observer.LonRad;
        private readonly double _rx = observer.RxAu / path.R0, _rz = observer.RzAu / path.R0, _aberration = observer.Aberration;

        public double AberrationHourAngle => _aberration / _path.C0;

        public double HourAngle(double u) => _path.HourAngle(u) + _lon;

        public double AtHourAngle(double hourAngle)
        {
            double target = hourAngle - _lon;
            double u = (target - _path.H0) / _path.H1;
            u -= (_path.HourAngle(u) - target) / _path.HourAngleRate(u);
            return u - ((_path.HourAngle(u) - target) / _path.H1);
        }

        /// <summary>Upward part of the direction times its length, and the length.</summary>
        public void Height(double u, out double up, out double norm)
        {
            (double sinH, double cosH) = Math.SinCos(HourAngle(u));
            double c = _path.CosDec(u);
            double x = (c * cosH) - _rx, y = _aberration - (c * sinH), z = _path.SinDec(u) - _rz;
            up = (x * _cos) + (z * _sin);
            norm = Math.Sqrt((x * x) + (y * y) + (z * z));
        }

        /// <summary>Rate of the upward part, of one sign with that of the altitude.</summary>
        public double Rate(double u)
        {
            (double sinH, double cosH) = Math.SinCos(HourAngle(u));
            return (_cos * ((_path.CosDecRate(u) * cosH) - (_path.CosDec(u) * sinH * _path.HourAngleRate(u)))) + (_sin * _path.SinDecRate(u));
        }

        /// <summary>Refines an extreme near the meridian; the turn is 1 at the upper, -1 at the lower.</summary>
        public double Extreme(double u, double turn)
        {
            double curvature = -turn * _cos * _path.C0 * _path.H1 * _path.H1;
            u -= ((_cos * _path.CosDecRate(u) * turn) + (_sin * _path.SinDecRate(u))) / curvature;
            if (_cos < 0.3)
            {
                // Far north or south the shift from the meridian is not small.
                for (int i = 0; i < 4; i++)
                {
                    u -= Rate(u) / curvature;
                }
            }

            return u;
        }

        /// <summary>The crossing inside a bracket whose ends have opposite signs.</summary>
        public double Solve(double lo, double hi, double atLo, double atHi, double sin, bool rising)
        {
            double u = 0.5 * (lo + hi);
            double c = _path.CosDec(u), s = _path.SinDec(u);
            double cosH = (sin + (_rx * _cos) + (_rz * _sin) - (s * _sin)) / (c * _cos);
            if (cosH is > -1 and < 1)
            {
                double angle = Math.Acos(cosH) * (rising ? -1 : 1);
                double middle = HourAngle(u);
                double turns = Math.Round((middle - angle) / (2 * Math.PI));
                double guess = u + ((angle + (turns * 2 * Math.PI) - middle) / _path.H1);
                u = guess > lo && guess < hi ? guess : u;
            }

            for (int i = 0; i < 60; i++)
            {
                (double sinH, double cosHere) = Math.SinCos(HourAngle(u));
                c = _path.CosDec(u);
                double x = (c * cosHere) - _rx, y = _aberration - (c * sinH), z = _path.SinDec(u) - _rz;
                double g = (x * _cos) + (z * _sin) - (sin * Math.Sqrt((x * x) + (y * y) + (z * z)));
                if ((g > 0) == (atHi > 0))
                {
                    hi = u;
                    atHi = g;
                }
                else
                {
                    lo = u;
                    atLo = g;
                }

                double rate = (_cos * ((_path.CosDecRate(u) * cosHere) - (c * sinH * _path.HourAngleRate(u)))) + (_sin * _path.SinDecRate(u));
                double next = u - (g / rate);
                if (!(next > lo && next < hi))
                {
                    next = 0.5 * (lo + hi);
                }

                double step = Math.Abs(next - u);
                u = next;
                if (step < TimeToleranceU || hi - lo < TimeToleranceU)
                {
                    break;
                }
            }

            return u;
        }
    }
}
