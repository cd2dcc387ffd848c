using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>What stays constant over a stretch of constant conditions; made once, then advanced over minute by minute.</summary>
[Source("iso-7933-2004", "Annex E as carried by open implementations")]
[Source("iso-7933-2023", "as carried by open implementations; reading R2")]
internal readonly struct HeatStrainSetup
{
    public readonly bool Edition2023;
    public readonly bool Listing;
    public readonly bool AirSpeedLimited;
    public readonly double AreaM2;
    public readonly double BodyHeat;          // W min/(m2 K)
    public readonly double PerBodyHeat;
    public readonly double CoreTargetEndC;
    public readonly double SkinBaseC;
    public readonly double SkinPerRectal;
    public readonly double AirC;
    public readonly double RadiantC;
    public readonly double RadiantK4;
    public readonly double VapourKpa;
    public readonly double MetabolicWPerM2;
    public readonly double WorkWPerM2;
    public readonly double BreathDryWPerM2;
    public readonly double BreathWetWPerM2;
    public readonly double HeatBeforeSkin;    // M - W - Cres - Eres
    public readonly double ForcedHc;
    public readonly double NaturalFromK;      // above this difference natural convection exceeds the forced one
    public readonly double RadiationFactor;
    public readonly double Fcl;
    public readonly double PerClothing;       // 1/Icl,dyn
    public readonly double PerRt;             // 1/Rt,dyn
    public readonly double SweatMaxWPerM2;
    public readonly double WettednessMax;
    public readonly double GramsPerWPerM2;
    public readonly double MeanLossLimitG;
    public readonly double LossLimitG;

    public HeatStrainSetup(in HeatStrainInput x)
    {
        Edition2023 = x.Edition == HeatStrainEdition.Iso7933Of2023;
        Listing = x.ListingLoops;
        double v = x.AirSpeedMps;
        AirSpeedLimited = x.LimitAirSpeed && v > HeatStrainConstants.HighestAirSpeedMps;
        if (AirSpeedLimited)
        {
            v = HeatStrainConstants.HighestAirSpeedMps;
        }

        double m = x.MetabolicWPerM2, ta = x.AirC, tr = x.RadiantC, pa = x.VapourKpa, clo = x.ClothingClo;
        AirC = ta;
        RadiantC = tr;
        VapourKpa = pa;
        MetabolicWPerM2 = m;
        WorkWPerM2 = x.WorkWPerM2;
        double a = x.AreaM2;
        AreaM2 = a;
        BodyHeat = HeatStrainConstants.BodyHeat * x.MassKg / a;
        PerBodyHeat = 1 / BodyHeat;
        if (Edition2023)
        {
            SweatMaxWPerM2 = x.Acclimatised ? 500 : 400;
        }
        else
        {
            SweatMaxWPerM2 = Math.Clamp((m - 32) * a, 250, 400) * (x.Acclimatised ? 1.25 : 1);
        }

        WettednessMax = x.Acclimatised ? 1 : 0.85;
        if (Edition2023)
        {
            LossLimitG = MeanLossLimitG = (x.WaterIsFree ? 0.05 : 0.03) * x.MassKg * 1000;
        }
        else
        {
            MeanLossLimitG = 0.075 * x.MassKg * 1000;
            LossLimitG = 0.05 * x.MassKg * 1000;
        }

        Fcl = 1 + ((Edition2023 ? 0.28 : 0.30) * clo);
        double clSt = 0.155 * clo, iaSt = 0.111, totSt = clSt + (iaSt / Fcl);
        double w, vr;
        if (x.WalkMps > 0)
        {
            w = x.WalkMps;
            vr = x.WalkToWindDeg != 0
                ? Math.Abs(v - (w * Math.Cos(3.14159 * x.WalkToWindDeg / 180)))
                : Math.Max(v, w);
        }
        else
        {
            w = Math.Min(0.7, 0.0052 * (m - 58));
            vr = v;
        }

        double vCapped = Math.Min(vr, 3), wCapped = Math.Min(w, 1.5);
        double corrCl = Math.Min(1, 1.044 * Math.Exp((((0.066 * vCapped) - 0.398) * vCapped) + (((0.094 * wCapped) - 0.378) * wCapped)));
        double corrIa = Math.Min(1, Math.Exp((((0.047 * vr) - 0.472) * vr) + (((0.117 * wCapped) - 0.342) * wCapped)));
        double corrTot = clo > 0.6 ? corrCl : (((0.6 - clo) * corrIa) + (clo * corrCl)) / 0.6;
        double totDyn = totSt * corrTot;
        double clDyn = totDyn - (corrIa * iaSt / Fcl);

        // Without clothing the layer vanishes; a floor keeps the surface at skin temperature instead of dividing by zero.
        PerClothing = 1 / Math.Max(clDyn, 1e-6);
        double corrE = (((2.6 * corrTot) - 6.5) * corrTot) + 4.9;
        double imDyn = Math.Min(0.9, x.StaticPermeabilityFactor * corrE);
        PerRt = 16.7 * imDyn / totDyn;
        double tex = 28.56 + (0.115 * ta) + (0.641 * pa);
        BreathDryWPerM2 = 0.001516 * m * (tex - ta);
        BreathWetWPerM2 = 0.00127 * m * (59.34 + (0.53 * ta) - (11.63 * pa));
        HeatBeforeSkin = m - x.WorkWPerM2 - BreathDryWPerM2 - BreathWetWPerM2;
        ForcedHc = vr <= 1 ? 3.5 + (5.2 * vr) : 8.7 * Math.Pow(vr, 0.6);
        double ratio = ForcedHc / 2.38;
        NaturalFromK = ratio * ratio * ratio * ratio;
        double radiating = x.Posture switch { BodyPosture.Standing => 0.77, BodyPosture.Sitting => 0.70, _ => 0.67 };
        double ap = x.ReflectiveShareFraction;
        double fclR = ((1 - ap) * 0.97) + (ap * (Edition2023 ? 1 - x.ReflectiveFactor : x.ReflectiveFactor));
        RadiationFactor = HeatStrainConstants.StefanBoltzmann * radiating * fclR;
        double trK = tr + HeatStrainConstants.ZeroK;
        RadiantK4 = trK * trK * trK * trK;
        CoreTargetEndC = (0.0036 * m) + 36.6;
        double clothed = 12.165 + (0.02017 * ta) + (0.04361 * tr) + (0.19354 * pa) - (0.25315 * v) + (0.005346 * m);
        double nude = 7.191 + (0.064 * ta) + (0.061 * tr) + (0.198 * pa) - (0.348 * v);
        double share = clo >= 0.6 ? 1 : clo <= 0.2 ? 0 : 2.5 * (clo - 0.2);
        SkinBaseC = nude + (share * (clothed - nude));
        SkinPerRectal = 0.616 + (share * (0.51274 - 0.616));
        GramsPerWPerM2 = 2.67 * a / (1.8 * 60);
    }
}
