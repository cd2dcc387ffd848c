using System.Runtime.CompilerServices;
using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Roots of the outdoor model and how well they are enclosed.</summary>
internal readonly struct WbgtRoots(double globeC, double naturalWetC, double wbgtC, double globeStepK, double wetStepK, bool converged)
{
    public readonly double GlobeC = globeC;
    public readonly double NaturalWetC = naturalWetC;
    public readonly double WbgtC = wbgtC;
    public readonly double GlobeStepK = globeStepK;
    public readonly double WetStepK = wetStepK;
    public readonly bool Converged = converged;
}

/// <summary>Outdoor wet-bulb globe temperature by heat balances of a 50 mm globe and a wetted wick.</summary>
[Source("liljegren-2008")]
internal static class WbgtKernel
{
    private const double GasConstant = 8314.34, AirMolar = 28.97, WaterMolar = 18.015, AirGas = GasConstant / AirMolar;
    private const double AirCp = 1003.5, Ratio = AirCp * AirMolar / WaterMolar;
    private const double Prandtl = AirCp / (AirCp + (1.25 * AirGas));
    private const double Sigma = 5.6696e-8;
    private const double GlobeDiameterM = 0.0508, GlobeEmissivity = 0.95, GlobeAlbedo = 0.05;
    private const double WickDiameterM = 0.007, WickLengthM = 0.0254, WickEmissivity = 0.95, WickAlbedo = 0.4;
    private const double SurfaceEmissivity = 0.999, SurfaceAlbedo = 0.45;
    public const double SolarConstant = 1367, LowestCosZenith = 0.00873, HighestClearness = 0.85;
    public const double LowestWindMps = 0.13;
    private const double WickEnd = 0.25 * WickDiameterM / WickLengthM;

    // 36.4 atm, 218 atm: critical pressures of air and water; 132 and 647.3 K: critical temperatures.
    private static readonly double DiffusivityScale =
        3.640e-4 * Math.Pow(36.4 * 218, 1.0 / 3) * Math.Pow(132 * 647.3, 5.0 / 12) * Math.Sqrt((1 / 28.97) + (1 / 18.015)) * 1e-4
        / Math.Pow(Math.Sqrt(132 * 647.3), 2.334);

    private static readonly double PrandtlCubeRoot = Math.Pow(Prandtl, 0.3333);
    private static readonly double Prandtl044 = Math.Pow(Prandtl, 0.44);
    private static readonly double Prandtl056 = Math.Pow(Prandtl, 0.56);

    /// <summary>Saturation pressure over liquid water [hPa], with the enhancement factor of moist air.</summary>
    [Source("buck-1981")]
    public static double SaturationHpa(double tK) => 1.004 * 6.1121 * Math.Exp(17.502 * (tK - 273.15) / (tK - 32.18));

    /// <summary>Solar irradiance after the cap, and its direct share, from measured irradiance and the sun's height.</summary>
    public static (double SolarWm2, double DirectFraction) Solar(double solarWm2, double cosZenith, double sunDistanceAu)
    {
        double top = cosZenith < LowestCosZenith ? 0 : SolarConstant * Math.Max(0, cosZenith) / (sunDistanceAu * sunDistanceAu);
        if (top <= 0)
        {
            return (solarWm2, 0);
        }

        double s = Math.Min(solarWm2 / top, HighestClearness);
        return s > 0 ? (s * top, Math.Clamp(Math.Exp(3 - (1.34 * s) - (1.65 / s)), 0, 0.9)) : (s * top, 0);
    }

    /// <summary>Distance of the sun at noon UT [au].</summary>
    public static double SunDistanceAu(DateOnly day)
    {
        double days = day.DayNumber - new DateOnly(2000, 1, 1).DayNumber;
        double g = (357.528 + (0.9856003 * days)) * Math.PI / 180;
        return 1.00014 - (0.01671 * Math.Cos(g)) - (0.00014 * Math.Cos(2 * g));
    }

    /// <summary>Stability class 1 to 6 of the wind profile.</summary>
    [Source("epa-454-r-99-005", "solar radiation and delta-T method")]
    public static int StabilityClass(bool day, double windMps, double solarWm2, double deltaTK)
    {
        if (day)
        {
            ReadOnlySpan<byte> table = [1, 1, 2, 4, 1, 2, 3, 4, 2, 2, 3, 4, 3, 3, 4, 4, 3, 4, 4, 4];
            int row = windMps < 2 ? 0 : windMps < 3 ? 1 : windMps < 5 ? 2 : windMps < 6 ? 3 : 4;
            int col = solarWm2 >= 925 ? 0 : solarWm2 >= 675 ? 1 : solarWm2 >= 175 ? 2 : 3;
            return table[(row * 4) + col];
        }

        ReadOnlySpan<byte> night = [5, 6, 5, 6, 4, 4];
        int nightRow = windMps < 2 ? 0 : windMps < 2.5 ? 1 : 2;
        return night[(nightRow * 2) + (deltaTK >= 0 ? 1 : 0)];
    }

    /// <summary>Wind at 2 m from wind at another height.</summary>
    [Source("epa-454-r-99-005", "power law exponents")]
    public static double WindAt2mMps(double windMps, double heightM, int stabilityClass, bool urban)
    {
        if (heightM == 2)
        {
            return windMps;
        }

        ReadOnlySpan<double> rural = [0.07, 0.07, 0.10, 0.15, 0.35, 0.55], town = [0.15, 0.15, 0.20, 0.25, 0.30, 0.30];
        double n = (urban ? town : rural)[stabilityClass - 1];
        return Math.Max(LowestWindMps, windMps * Math.Pow(2 / heightM, n));
    }

    /// <summary>Wet-bulb globe temperature, wind at 2 m.</summary>
    public static WbgtRoots Solve(double airC, double relHumidityFraction, double windMps, double pressureHpa, double solarWm2, double cosZenith, double directFraction)
    {
        double ta = airC + Si.ZeroCelsiusK;
        double ea = relHumidityFraction * SaturationHpa(ta);
        double airEmissivity = 0.575 * Math.Pow(ea, 0.143);
        var globe = new GlobeBalance(ta, airEmissivity, windMps, pressureHpa, solarWm2, cosZenith, directFraction);
        double tg = Root(in globe, ta + (solarWm2 * 0.015), ta - 60, ta + 150, out double globeStep, out bool okGlobe);
        var wick = new WickBalance(ta, ea, airEmissivity, windMps, pressureHpa, solarWm2, cosZenith, directFraction, radiant: true);
        double guess = ta - ((1 - relHumidityFraction) * 0.32 * Math.Max(airC + 10, 2)) + (solarWm2 * 0.002);
        double tw = Root(in wick, guess, ta - 80, ta + 80, out double wetStep, out bool okWet);
        double g = tg - Si.ZeroCelsiusK, w = tw - Si.ZeroCelsiusK;
        return new WbgtRoots(g, w, (0.7 * w) + (0.2 * g) + (0.1 * airC), globeStep, wetStep, okGlobe && okWet);
    }

    /// <summary>Psychrometric wet bulb: the wick without radiation.</summary>
    public static double PsychrometricWetC(double airC, double relHumidityFraction, double windMps, double pressureHpa)
    {
        double ta = airC + Si.ZeroCelsiusK;
        double ea = relHumidityFraction * SaturationHpa(ta);
        var wick = new WickBalance(ta, ea, 0, windMps, pressureHpa, 0, 1, 0, radiant: false);
        return Root(in wick, ta - ((1 - relHumidityFraction) * 0.32 * Math.Max(airC + 10, 2)), ta - 80, ta + 40, out _, out _) - Si.ZeroCelsiusK;
    }

    /// <summary>Whether the balances change sign within a distance of the roots: then the roots are at most that far off.</summary>
    public static bool Encloses(
        in WbgtRoots roots, double withinK, double airC, double relHumidityFraction, double windMps, double pressureHpa, double solarWm2, double cosZenith, double directFraction)
    {
        double ta = airC + Si.ZeroCelsiusK;
        double ea = relHumidityFraction * SaturationHpa(ta);
        double airEmissivity = 0.575 * Math.Pow(ea, 0.143);
        var globe = new GlobeBalance(ta, airEmissivity, windMps, pressureHpa, solarWm2, cosZenith, directFraction);
        var wick = new WickBalance(ta, ea, airEmissivity, windMps, pressureHpa, solarWm2, cosZenith, directFraction, radiant: true);
        double g = roots.GlobeC + Si.ZeroCelsiusK, w = roots.NaturalWetC + Si.ZeroCelsiusK;
        return globe.At(g - withinK) < 0 && globe.At(g + withinK) > 0 && wick.At(w - withinK) < 0 && wick.At(w + withinK) > 0;
    }

    /// <summary>The smallest power of ten from 1e-10 K on within which both balances change sign; infinite when they do not within 1 K.</summary>
    public static double CertifyK(
        in WbgtRoots roots, double airC, double relHumidityFraction, double windMps, double pressureHpa, double solarWm2, double cosZenith, double directFraction)
    {
        for (double within = 1e-10; within < 1; within *= 10)
        {
            if (Encloses(in roots, within, airC, relHumidityFraction, windMps, pressureHpa, solarWm2, cosZenith, directFraction))
            {
                return within;
            }
        }

        return double.PositiveInfinity;
    }

    /// <summary>Secant steps kept inside a bracket that shrinks with every sign; a step that leaves it halves the bracket instead.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Root<T>(in T f, double guess, double low, double high, out double lastStep, out bool converged)
        where T : struct, IBalance
    {
        double x0 = guess, f0 = f.At(x0);
        if (f0 < 0)
        {
            low = x0;
        }
        else
        {
            high = x0;
        }

        double x1 = x0 - (f0 / f.Slope(x0));
        for (int i = 0; i < 100; i++)
        {
            if (!(x1 >= low && x1 <= high))
            {
                x1 = 0.5 * (low + high);
            }

            lastStep = Math.Abs(x1 - x0);
            if (lastStep < 1e-6)
            {
                converged = true;
                return x1;
            }

            double f1 = f.At(x1);
            if (f1 < 0)
            {
                low = x1;
            }
            else
            {
                high = x1;
            }

            double slope = (f1 - f0) / (x1 - x0);
            x0 = x1;
            f0 = f1;
            x1 -= f1 / slope;
        }

        lastStep = Math.Abs(x1 - x0);
        converged = false;
        return x1;
    }

    private interface IBalance
    {
        /// <summary>Heat leaving minus heat arriving [scaled to K]; rises with temperature.</summary>
        double At(double tK);

        double Slope(double tK);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Viscosity(double tK)
    {
        double omega = (((tK / 97) - 2.9) / 0.4 * -0.034) + 1.048;
        return 2.6693e-6 * Math.Sqrt(28.97 * tK) / (3.617 * 3.617 * omega);
    }

    private static double Evaporation(double filmK) => 2.4073e6 - (71100 * (313.15 - filmK) / 30);

    private readonly struct GlobeBalance : IBalance
    {
        private readonly double _ta;
        private readonly double _source;   // W/m2 over emissivity and sigma
        private readonly double _flow;

        public GlobeBalance(double ta, double airEmissivity, double windMps, double pressureHpa, double solarWm2, double cosZenith, double directFraction)
        {
            _ta = ta;
            double ta4 = ta * ta * ta * ta;
            double beam = directFraction > 0 ? directFraction * ((1 / (2 * cosZenith)) - 1) : 0;
            _source = (0.5 * (airEmissivity + SurfaceEmissivity) * ta4)
                + (solarWm2 / (2 * GlobeEmissivity * Sigma) * (1 - GlobeAlbedo) * (beam + 1 + SurfaceAlbedo));

            // Reynolds number times viscosity and film temperature.
            _flow = Math.Max(windMps, LowestWindMps) * (pressureHpa * 100 / AirGas) * GlobeDiameterM;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public double At(double tK)
        {
            double film = 0.5 * (tK + _ta);
            double mu = Viscosity(film);
            double h = (2 + (0.6 * Math.Sqrt(_flow / (film * mu)) * PrandtlCubeRoot)) * (AirCp + (1.25 * AirGas)) * mu / GlobeDiameterM;
            double t2 = tK * tK;
            return (GlobeEmissivity * Sigma * ((t2 * t2) - _source)) + (h * (tK - _ta));
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public double Slope(double tK)
        {
            double film = 0.5 * (tK + _ta);
            double mu = Viscosity(film);
            double h = (2 + (0.6 * Math.Sqrt(_flow / (film * mu)) * PrandtlCubeRoot)) * (AirCp + (1.25 * AirGas)) * mu / GlobeDiameterM;
            return (4 * GlobeEmissivity * Sigma * tK * tK * tK) + h;
        }
    }

    private readonly struct WickBalance : IBalance
    {
        private readonly double _ta;
        private readonly double _ea;
        private readonly double _pressureHpa;
        private readonly double _source;
        private readonly double _flow;
        private readonly double _emit;

        public WickBalance(double ta, double ea, double airEmissivity, double windMps, double pressureHpa, double solarWm2, double cosZenith, double directFraction, bool radiant)
        {
            _ta = ta;
            _ea = ea;
            _pressureHpa = pressureHpa;
            _flow = Math.Max(windMps, LowestWindMps) * (pressureHpa * 100 / AirGas) * WickDiameterM;
            if (radiant)
            {
                _emit = Sigma * WickEmissivity;
                double ta4 = ta * ta * ta * ta;
                double beam = 0;
                if (directFraction > 0)
                {
                    double tan = Math.Sqrt(Math.Max(0, 1 - (cosZenith * cosZenith))) / cosZenith;
                    beam = directFraction * ((tan / Math.PI) + WickEnd);
                }

                _source = (_emit * 0.5 * (airEmissivity + SurfaceEmissivity) * ta4)
                    + ((1 - WickAlbedo) * solarWm2 * (((1 - directFraction) * (1 + WickEnd)) + beam + SurfaceAlbedo));
            }
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public double At(double tK)
        {
            (double h, double mass) = Coefficients(tK);
            double ew = SaturationHpa(tK);
            double evap = Evaporation(0.5 * (tK + _ta));
            double t2 = tK * tK;
            return (h * (tK - _ta + (evap / Ratio * (ew - _ea) / (_pressureHpa - ew) * mass))) + (_emit * t2 * t2) - _source;
        }

        public double Slope(double tK)
        {
            (double h, double mass) = Coefficients(tK);
            double ew = SaturationHpa(tK), z = tK - 32.18;
            double dew = ew * 17.502 * 240.97 / (z * z);
            double evap = Evaporation(0.5 * (tK + _ta)), gap = _pressureHpa - ew;
            return (h * (1 + (evap / Ratio * mass * dew * (_pressureHpa - _ea) / (gap * gap)))) + (4 * _emit * tK * tK * tK);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private (double H, double Mass) Coefficients(double tK)
        {
            double film = 0.5 * (tK + _ta);
            double mu = Viscosity(film);
            double re = _flow / (film * mu);
            double h = 0.281 * Math.Pow(re, 0.6) * Prandtl044 * (AirCp + (1.25 * AirGas)) * mu / WickDiameterM;
            double diffusivity = DiffusivityScale * Math.Pow(film, 2.334) * 1013.25 / _pressureHpa;
            double rho = _pressureHpa * 100 / (AirGas * film);
            double schmidt = mu / (rho * diffusivity);
            return (h, Prandtl056 * Math.Pow(schmidt, -0.56));
        }
    }
}
