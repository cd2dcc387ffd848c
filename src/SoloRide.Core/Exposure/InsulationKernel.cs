using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>One case of the required-insulation standard.</summary>
internal readonly record struct InsulationInput
{
    public double AirC { get; init; }

    public double RadiantC { get; init; }

    /// <summary>Air speed over the body; the standard's range begins at 0.4.</summary>
    public double AirSpeedMps { get; init; }

    public double RelHumidityPct { get; init; }

    public double MetabolicWPerM2 { get; init; }

    public double WorkWPerM2 { get; init; }

    public double WalkMps { get; init; }

    /// <summary>Air permeability of the outer layer [L/(m2 s)].</summary>
    public double PermeabilityLPerM2S { get; init; }
}

/// <summary>Required insulation [clo] of one strain level, and what a given clothing makes of it.</summary>
internal readonly struct InsulationRoots(double requiredClo, double clothingClo, double storageWm2, double limitHours, double residualWm2)
{
    /// <summary>IREQ.</summary>
    public readonly double RequiredClo = requiredClo;

    /// <summary>ICL, the basic clothing insulation needed.</summary>
    public readonly double ClothingClo = clothingClo;

    /// <summary>Heat storage with the clothing at hand; below 0 the body cools.</summary>
    public readonly double StorageWm2 = storageWm2;

    /// <summary>Duration limited exposure; infinite when the body does not cool. Not cut at any number of hours.</summary>
    public readonly double LimitHours = limitHours;

    public readonly double ResidualWm2 = residualWm2;
}

/// <summary>Required clothing insulation and duration limited exposure.</summary>
[Source("iso-11079-2007", "as carried by an open implementation, its defects left out")]
internal static class InsulationKernel
{
    public const double M2KPerWPerClo = 0.155;

    public const double LowestAirSpeedMps = 0.4;
    public const double HighestAirSpeedMps = 18;
    public const double HighestAirC = 10;
    public const double LowestMetabolicWPerM2 = 58;
    public const double HighestMetabolicWPerM2 = 400;

    /// <summary>Above this the area factor reads too high.</summary>
    [Source("kuklane-2021", "abstract")]
    public const double ThickClo = 2;

    /// <summary>Heat debt that ends the exposure [Wh/m2].</summary>
    public const double DebtWhPerM2 = 40;

    public static InsulationRoots Solve(in InsulationInput x, bool neutral, double clothingClo)
    {
        var c = new Case(in x, neutral);
        double required = c.Required(out double residual);
        double fcl = 1 + (1.197 * required);
        double icl = ((required + (c.Air / fcl)) / c.Correction) - (0.085 / fcl);
        double storage = double.NaN, hours = double.NaN;
        if (!double.IsNaN(clothingClo))
        {
            storage = c.Storage(c.Resulting(clothingClo * M2KPerWPerClo));
            hours = storage < 0 ? DebtWhPerM2 / -storage : double.PositiveInfinity;
        }

        return new InsulationRoots(required / M2KPerWPerClo, icl / M2KPerWPerClo, storage, hours, residual);
    }

    /// <summary>Storage [W/m2] with the given basic clothing insulation.</summary>
    public static double StorageWm2(in InsulationInput x, bool neutral, double clothingClo)
    {
        var c = new Case(in x, neutral);
        return c.Storage(c.Resulting(clothingClo * M2KPerWPerClo));
    }

    private readonly struct Case
    {
        public readonly double Air;
        public readonly double Correction;
        private readonly double _skinC;
        private readonly double _ta;
        private readonly double _tr;
        private readonly double _evap;   // w (psk - pa) / (0.06/0.38)
        private readonly double _heat;   // M - W - respiration

        public Case(in InsulationInput x, bool neutral)
        {
            double m = x.MetabolicWPerM2;
            _ta = x.AirC;
            _tr = x.RadiantC;
            double v = x.AirSpeedMps, p = x.PermeabilityLPerM2S;
            double walk = Math.Min(1.2, Math.Max(x.WalkMps, 0.0052 * (m - 58)));
            _skinC = neutral ? 35.7 - (0.0285 * m) : 33.34 - (0.0354 * m);
            double wet = neutral ? 0.001 * m : 0.06;
            double pa = x.RelHumidityPct / 100 * HumidityKernel.ColdKpa(_ta);
            double tex = 29 + (0.2 * _ta);
            _heat = m - x.WorkWPerM2 - (0.0173 * m * (HumidityKernel.ColdKpa(tex) - pa)) - (0.0014 * m * (tex - _ta));
            double movement = Math.Exp((-0.15 * v) - (0.22 * walk));
            Air = (0.092 * movement) - 0.0045;
            Correction = (0.54 * movement * Math.Pow(p, 0.075)) - (0.06 * Math.Log(p)) + 0.5;
            _evap = wet * (HumidityKernel.ColdKpa(_skinC) - pa) / (0.06 / 0.38);
        }

        /// <summary>Insulation at which the balance closes without storage: Newton inside a bracket with a change of sign.</summary>
        public double Required(out double residual)
        {
            double f0 = Balance(0, out _);
            if (f0 >= 0)
            {
                residual = 0;
                return 0;
            }

            double low = 0, high = 3;
            double fHigh = Balance(high, out _);
            while (fHigh < 0)
            {
                low = high;
                high *= 2;
                if (high > 200)
                {
                    // The heat made does not cover breath and evaporation: no clothing is enough.
                    residual = 0;
                    return double.PositiveInfinity;
                }

                fHigh = Balance(high, out _);
            }

            double x = Start(low, high);
            for (int i = 0; i < 100; i++)
            {
                double f = Balance(x, out double slope);
                if (f < 0)
                {
                    low = x;
                }
                else
                {
                    high = x;
                }

                double next = x - (f / slope);
                if (!(next >= low && next <= high))
                {
                    next = 0.5 * (low + high);
                }

                double step = Math.Abs(next - x);
                x = next;
                if (step < 1e-9 * (1 + x))
                {
                    break;
                }
            }

            residual = Balance(x, out _);
            return x;
        }

        /// <summary>Storage at a given resulting insulation.</summary>
        public double Storage(double insulation)
        {
            // q solves q = fcl [hr(ta - tr) + (Tcl - ta)/Ia], Tcl = Tsk - I q; without radiation of its own it is linear.
            double fcl = 1 + (1.197 * insulation);
            double q = fcl * (_skinC - _ta) / (Air + (fcl * insulation));
            if (_tr != _ta)
            {
                for (int i = 0; i < 50; i++)
                {
                    double tcl = _skinC - (insulation * q);
                    double hr = Radiation(tcl, out double dhr);
                    double f = q - (fcl * ((hr * (_ta - _tr)) + ((tcl - _ta) / Air)));
                    double slope = 1 + (fcl * insulation * ((dhr * (_ta - _tr)) + (1 / Air)));
                    double step = f / slope;
                    q -= step;
                    if (Math.Abs(step) < 1e-9)
                    {
                        break;
                    }
                }
            }

            return _heat - (_evap / (Air + insulation)) - q;
        }

        /// <summary>Resulting insulation x of a basic clothing insulation: x (1+1.197x) = (Icl fcl + 0.085) corr - Ia, a quadratic.</summary>
        public double Resulting(double clothing)
        {
            double b = 1 - (1.197 * clothing * Correction);
            double c0 = (clothing * Correction) + (0.085 * Correction) - Air;
            double root = (-b + Math.Sqrt(Math.Max(0, (b * b) + (4 * 1.197 * c0)))) / (2 * 1.197);
            return Math.Max(0, root);
        }

        private double Start(double low, double high)
        {
            double dry = _heat - (_evap / (Air + 0.3));
            double guess = dry > 0 ? (_skinC - _ta) / dry : high;
            guess -= Air / (1 + (1.197 * Math.Max(0, guess)));
            return guess > low && guess < high ? guess : 0.5 * (low + high);
        }

        private double Balance(double insulation, out double slope)
        {
            double fcl = 1 + (1.197 * insulation);
            double per = 1 / (Air + insulation);
            double q = _heat - (_evap * per);
            double dq = _evap * per * per;
            double tcl = _skinC - (insulation * q);
            double dTcl = -q - (insulation * dq);
            double hr = Radiation(tcl, out double dhr);
            double dry = (hr * (_ta - _tr)) + ((tcl - _ta) / Air);
            slope = dq - (1.197 * dry) - (fcl * dTcl * ((dhr * (_ta - _tr)) + (1 / Air)));
            return q - (fcl * dry);
        }

        private double Radiation(double tcl, out double slope)
        {
            const double factor = 5.67e-8 * 0.95 * 0.77;
            double a = 273 + tcl, b = 273 + _tr;
            slope = factor * ((3 * a * a) + (2 * a * b) + (b * b));
            return factor * ((a * a) + (b * b)) * (a + b);
        }
    }
}
