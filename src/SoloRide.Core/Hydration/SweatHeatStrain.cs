using SoloRide.Exposure;
using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Sweat rate of a steady effort by predicted heat strain; no allocation.</summary>
internal static class SweatHeatStrain
{
    /// <summary>The first hour warms up and counts only when the effort is shorter than two.</summary>
    private const int WarmUpMin = 60;

    private const int LeastMin = 10;

    private const int MostMin = 480;

    [Source("iso-7933-2004", "emissivity of clothing and Stefan-Boltzmann constant, W/(m² K⁴)")]
    private const double EmittedWpm2K4 = 0.97 * 5.67e-8;

    /// <summary>Mean radiant temperature that takes up the sun's share above the air's temperature.</summary>
    public static double RadiantC(double airC, double sunPerRadiatingWpm2)
    {
        double k = airC + Si.ZeroCelsiusK;
        return Math.Sqrt(Math.Sqrt((k * k * k * k) + (sunPerRadiatingWpm2 / EmittedWpm2K4))) - Si.ZeroCelsiusK;
    }

    /// <summary>Mean sweat rate once warm [g/(m² h)]; the breath's water is left out, as it falls where sweat rises with humidity.</summary>
    /// <param name="x">Conditions.</param>
    /// <param name="massKg">Body mass.</param>
    /// <param name="heightM">Body height.</param>
    /// <param name="minutes">How long the effort lasts.</param>
    public static double Gpm2h(in SweatInput x, double massKg, double heightM, double minutes)
    {
        HeatStrainInput input = HeatStrainInput.Standard with
        {
            AirC = x.AirC,
            RadiantC = RadiantC(x.AirC, x.SunPerRadiatingWpm2),
            AirSpeedMps = x.AirMps,
            VapourKpa = x.RelHumidityFraction * SweatKernel.SaturationKpa(x.AirC),
            MetabolicWPerM2 = x.MetabolicWpm2,
            WorkWPerM2 = x.WorkWpm2,
            ClothingClo = x.ClothingClo,
            StaticPermeabilityFactor = x.PermeabilityFactor,
            MassKg = massKg,
            HeightM = heightM,
            Acclimatised = x.Acclimatised == Known.Yes,
        };
        var setup = new HeatStrainSetup(in input);
        HeatStrainStepper body = HeatStrainStepper.Rested;
        int total = (int)Math.Clamp(Math.Round(minutes), LeastMin, MostMin), warm = Math.Min(WarmUpMin, total / 2);
        HeatStrainKernel.Advance(ref body, in setup, warm);
        double before = body.LossG;
        HeatStrainKernel.Advance(ref body, in setup, total - warm);
        double breath = setup.BreathWetWPerM2 * setup.GramsPerWPerM2 * (total - warm);
        return Math.Max(0, body.LossG - before - breath) / setup.AreaM2 / (total - warm) * 60;
    }
}
