using System.Runtime.CompilerServices;
using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Predicted heat strain, minute by minute.</summary>
[Source("iso-7933-2004", "Annex E as carried by open implementations")]
[Source("iso-7933-2023", "as carried by open implementations; reading R2")]
internal static class HeatStrainKernel
{
    private const double LoopTolerance = 0.001;      // of the printed listing
    private const double SolverTolerance = 1e-4;     // last Newton step [K]; the error left is its square times at most 0.02, so below 1e-9 K
    private const double ThirdsShare = 0.3 + (0.09 * 36.8);
    private const double SlopeEndC = 36.8 + (0.2 / 0.09);

    private static readonly double Keep10 = Math.Exp(-1.0 / 10);
    private static readonly double Keep3 = Math.Exp(-1.0 / 3);

    [Source("du-bois-1916")]
    public static double BodyAreaM2(double massKg, double heightM) => 0.202 * Math.Pow(massKg, 0.425) * Math.Pow(heightM, 0.725);

    /// <summary>Goes on by whole minutes in constant conditions.</summary>
    [SkipLocalsInit]
    public static void Advance(ref HeatStrainStepper body, in HeatStrainSetup c, int minutes)
    {
        double skin = body.SkinC, core = body.CoreC, rectal = body.RectalC, target = body.CoreTargetC;
        double share = body.SkinShare, cloth = body.ClothingC, sweat = body.SweatWPerM2, loss = body.LossG;
        int minute = body.Minute;
        double conv = 0, rad = 0, ereq = 0, emax = 0, ep = 0, storage = 0, dTarget = 0, unbalanced = 0;
        double k10 = Keep10, k3 = Keep3, targetGain = c.CoreTargetEndC * (1 - k10);
        for (int i = 0; i < minutes; i++)
        {
            minute++;
            double target0 = target;
            target = (target0 * k10) + targetGain;
            dTarget = c.BodyHeat * (target - target0) * (1 - share);

            double skin0 = skin;
            double skinEq = c.SkinBaseC + (c.SkinPerRectal * rectal);
            skin = c.Edition2023 && minute == 1 ? skinEq : (skin0 * k3) + (skinEq * (1 - k3));
            double psk = 0.6105 * Math.Exp(17.27 * skin / (skin + 237.3));

            double hc;
            if (c.Listing)
            {
                cloth = ListingClothing(in c, skin, out hc, out double hr);
                rad = c.Fcl * hr * (cloth - c.RadiantC);
            }
            else
            {
                cloth = Clothing(in c, skin, cloth, out hc);
                double clothK = cloth + HeatStrainConstants.ZeroK;
                double k2 = clothK * clothK;
                rad = c.Fcl * c.RadiationFactor * ((k2 * k2) - c.RadiantK4);
            }

            conv = c.Fcl * hc * (cloth - c.AirC);
            emax = (psk - c.VapourKpa) * c.PerRt;
            double balance = c.HeatBeforeSkin - dTarget - conv - rad;
            ereq = balance;
            unbalanced = 0;
            double wanted;
            if (ereq <= 0)
            {
                unbalanced = ereq;
                ereq = 0;
                wanted = 0;
            }
            else if (emax <= 0)
            {
                emax = 0;
                wanted = c.SweatMaxWPerM2;
            }
            else
            {
                double wreq = ereq / emax;
                if (wreq >= 1.7)
                {
                    wanted = c.SweatMaxWPerM2;
                }
                else
                {
                    double eff = wreq <= 1 ? 1 - (wreq * wreq / 2) : (2 - wreq) * (2 - wreq) / 2;
                    wanted = Math.Min(c.SweatMaxWPerM2, ereq / Math.Max(eff, 0.05));
                }
            }

            sweat = (sweat * k10) + (wanted * (1 - k10));
            if (sweat <= 0)
            {
                sweat = 0;
                ep = 0;
            }
            else
            {
                double usable = emax == 0 ? 0.001 : emax;
                double k = usable / sweat;
                double wp = k < 0.5 ? 1 : -k + Math.Sqrt((k * k) + 2);
                ep = Math.Min(wp, c.WettednessMax) * usable;
            }

            storage = ereq - ep + dTarget;
            double half = 0.5 * share;
            double known = (storage * c.PerBodyHeat) + (skin0 * half) + (core * (1 - half));
            if (c.Listing)
            {
                (core, share) = ListingCore(known, core, skin);
            }
            else
            {
                core = Core(known, skin);
                share = Math.Clamp(0.3 - (0.09 * (core - 36.8)), 0.1, 0.3);
            }

            rectal += ((2 * core) - (1.962 * rectal) - 1.31) * (1.0 / 9);
            loss += (sweat + c.BreathWetWPerM2) * c.GramsPerWPerM2;
            if (rectal >= HeatStrainConstants.CoreLimitC && body.CoreLimitMinute == 0)
            {
                body.CoreLimitMinute = minute;
            }

            if (loss >= c.LossLimitG)
            {
                if (body.LossLimitMinute == 0)
                {
                    body.LossLimitMinute = minute;
                }

                if (loss >= c.MeanLossLimitG && body.MeanLossLimitMinute == 0)
                {
                    body.MeanLossLimitMinute = minute;
                }
            }
        }

        body.Minute = minute;
        body.SkinC = skin;
        body.CoreC = core;
        body.RectalC = rectal;
        body.CoreTargetC = target;
        body.SkinShare = share;
        body.ClothingC = cloth;
        body.SweatWPerM2 = sweat;
        body.LossG = loss;
        body.ConvectionWPerM2 = conv;
        body.RadiationWPerM2 = rad;
        body.RequiredEvaporationWPerM2 = ereq;
        body.HighestEvaporationWPerM2 = emax;
        body.EvaporationWPerM2 = ep;
        body.StorageWPerM2 = storage;
        body.CoreTargetStorageWPerM2 = dTarget;
        body.UnbalancedWPerM2 = unbalanced;
    }

    /// <summary>Clothing surface: C + R = (Tsk - Tcl)/Icl by Newton; the left side rises with Tcl, the right falls, so the root is one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Clothing(in HeatStrainSetup c, double skin, double guess, out double hc)
    {
        double x = guess, z = c.ForcedHc;
        double perFcl = c.PerClothing / c.Fcl;
        if (!c.Edition2023)
        {
            double dSkin = Math.Abs(skin - c.AirC);
            hc = dSkin > c.NaturalFromK ? Natural(dSkin) : z;
            for (int i = 0; i < 50; i++)
            {
                double k = x + HeatStrainConstants.ZeroK, k2 = k * k;
                double f = (hc * (x - c.AirC)) + (c.RadiationFactor * ((k2 * k2) - c.RadiantK4)) + (perFcl * (x - skin));
                double step = f / (hc + (4 * c.RadiationFactor * k2 * k) + perFcl);
                x -= step;
                if (Math.Abs(step) < SolverTolerance)
                {
                    break;
                }
            }

            return x;
        }

        double dT = Math.Abs(x - c.AirC);
        bool natural = dT > c.NaturalFromK;
        for (int i = 0; i < 50; i++)
        {
            hc = natural ? Natural(dT) : z;
            double k = x + HeatStrainConstants.ZeroK, k2 = k * k;
            double f = (hc * (x - c.AirC)) + (c.RadiationFactor * ((k2 * k2) - c.RadiantK4)) + (perFcl * (x - skin));
            double step = f / ((natural ? 1.25 * hc : hc) + (4 * c.RadiationFactor * k2 * k) + perFcl);
            x -= step;
            dT = Math.Abs(x - c.AirC);
            bool before = natural;
            natural = dT > c.NaturalFromK;

            // Across the kink between forced and natural convection one more step is needed.
            if (Math.Abs(step) < SolverTolerance && natural == before)
            {
                break;
            }
        }

        hc = natural ? Natural(dT) : z;
        return x;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Natural(double dT) => 2.38 * Math.Sqrt(Math.Sqrt(Math.Abs(dT)));

    /// <summary>Core temperature in closed form: the skin's share falls linearly between two temperatures, so the balance is quadratic there.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Core(double known, double skin)
    {
        double t = (known - (0.15 * skin)) * (1 / 0.85);
        if (t <= 36.8)
        {
            return t;
        }

        t = (known - (0.05 * skin)) * (1 / 0.95);
        if (t >= SlopeEndC)
        {
            return t;
        }

        double b = 1 - (ThirdsShare / 2) - (0.045 * skin);
        double q = (ThirdsShare * skin / 2) - known;
        return (-b + Math.Sqrt((b * b) - (4 * 0.045 * q))) * (1 / 0.09);
    }

    private static double ListingClothing(in HeatStrainSetup c, double skin, out double hc, out double hr)
    {
        double x = c.RadiantC + 0.1;
        double hcSkin = Math.Max(c.ForcedHc, Natural(skin - c.AirC));
        for (int i = 0; ; i++)
        {
            hc = c.Edition2023 ? Math.Max(c.ForcedHc, Natural(x - c.AirC)) : hcSkin;
            double a = x + HeatStrainConstants.ZeroK, b = c.RadiantC + HeatStrainConstants.ZeroK;
            hr = c.RadiationFactor * ((a * a) + (b * b)) * (a + b);
            double y = ((c.Fcl * ((hc * c.AirC) + (hr * c.RadiantC))) + (skin * c.PerClothing)) / ((c.Fcl * (hc + hr)) + c.PerClothing);
            if (Math.Abs(x - y) <= LoopTolerance || i >= 1000)
            {
                return x;
            }

            x = (x + y) / 2;
        }
    }

    private static (double Core, double Share) ListingCore(double known, double core0, double skin)
    {
        double x = core0;
        for (int i = 0; ; i++)
        {
            double share = Math.Clamp(0.3 - (0.09 * (x - 36.8)), 0.1, 0.3);
            double core = (known - (skin * share / 2)) / (1 - (share / 2));
            if (Math.Abs(core - x) <= LoopTolerance || i >= 1000)
            {
                return (core, share);
            }

            x = (x + core) / 2;
        }
    }
}
