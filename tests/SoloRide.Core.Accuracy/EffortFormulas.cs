using System.Globalization;
using SoloRide.Effort;

namespace SoloRide.Accuracy;

/// <summary>The library's kernels by the names that the check tables give the published formulas.</summary>
internal static class EffortFormulas
{
    /// <summary>Gravity of the power rows [m/s2].</summary>
    private const double TableGravityMps2 = 9.81;

    public static double Evaluate(string formula, string inputs)
    {
        Dictionary<string, string> text = inputs.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(p => p.Split('=', 2)).ToDictionary(p => p[0].Trim(), p => p[1].Trim(), StringComparer.Ordinal);
        double N(string key) => double.Parse(text[key], CultureInfo.InvariantCulture);
        double Or(string key, double otherwise) => text.ContainsKey(key) ? N(key) : otherwise;
        Sex Sex() => text["sex"] == "m" ? SoloRide.Sex.Male : SoloRide.Sex.Female;
        switch (formula)
        {
            case "isa_density":
                return AirKernel.DensityKgPerM3(N("h"), AirKernel.TemperatureK(N("h")) + N("dT"));
            case "martin_power":
            {
                double v = N("v"), air = v + N("wind_tan"), area = N("cda") + N("fw");
                double ours = RidePowerKernel.PedalPowerW(v, N("wind_tan"), N("mass"), N("grade"), N("crr"), area, N("rho"), N("dke"), N("eff"), TableGravityMps2);
                // The table squares the air speed without its sign; the library lets a fast tail wind push.
                return air < 0 ? ours + (N("rho") * area * air * air * v / N("eff")) : ours;
            }

            case "solve_speed_cardano_still_air":
            case "solve_speed_largest_root":
            {
                double grade = N("grade"), cos = 1 / Math.Sqrt(1 + (grade * grade));
                double c = (N("mass") * TableGravityMps2 * ((grade * cos) + (N("crr") * cos))) + RidePowerKernel.BearingN;
                double p = Or("P", double.NaN);
                p = double.IsNaN(p) ? N("power") : p;
                return RidePowerKernel.SpeedMps(0.5 * N("rho") * N("cda"), RidePowerKernel.BearingNsPerM, c, RidePowerKernel.CleanDriveEfficiency * p, Or("wind", 0));
            }

            case "acsm_leg": return FuelKernel.AcsmLegMlPerKgMin(N("kgm_min"), N("mass"));
            case "acsm_leg_w": return FuelKernel.AcsmLegWattsMlPerKgMin(N("w"), N("mass"));
            case "acsm_walk": return WalkCostKernel.AcsmWalkMlPerKgMin(N("s_m_min"), N("grade"));
            case "ardigo_walk": return WalkCostKernel.ArdigoJPerKgM(N("i"), N("v"));
            case "herzog6": return WalkCostKernel.HerzogJPerKgM(N("i"));
            case "minetti_walk": return WalkCostKernel.MinettiWalkJPerKgM(N("i"));
            case "minetti_run": return WalkCostKernel.MinettiRunJPerKgM(N("i"));
            case "llobera_sluckin": return WalkCostKernel.LloberaSluckin(N("i"));
            case "pandolf": return WalkCostKernel.PandolfW(N("W"), N("L"), N("V"), N("Gp"), N("eta"));
            case "pandolf_santee_downhill": return WalkCostKernel.PandolfSanteeW(N("W"), N("L"), N("V"), N("Gp"), N("eta"));
            case "lcda_level": return WalkCostKernel.LcdaWPerKg(N("S"), 0);
            case "lcda_graded": return WalkCostKernel.LcdaWPerKg(N("S"), N("Gp"));
            case "lcda_graded_base1p11": return WalkCostKernel.LcdaWPerKg(N("S"), N("Gp"), WalkCostKernel.LcdaBaseVariant);
            case "lcda_pack_multiplier": return WalkCostKernel.LoadFactor(N("L"), N("W"));
            case "mifflin": return RestingKernel.MifflinKcalPerDay(Sex(), N("kg"), N("cm"), N("yr"));
            case "harris_benedict": return RestingKernel.HarrisBenedictKcalPerDay(Sex(), N("kg"), N("cm"), N("yr"));
            case "fao_who": return RestingKernel.FaoKcalPerDay(Sex(), N("kg"), N("yr"));
            case "schofield_w": return RestingKernel.SchofieldMjPerDay(Sex(), N("kg"), N("yr"));
            case "schofield_wh": return RestingKernel.SchofieldMjPerDay(Sex(), N("kg"), N("m"), N("yr"));
            case "keytel": return FuelKernel.KeytelKjPerMin(Sex(), N("hr"), N("kg"), N("yr"));
            case "keytel_vo2max": return FuelKernel.KeytelKjPerMin(Sex(), N("hr"), N("kg"), N("yr"), N("vo2"));
            case "bassett_acute": return AltitudeKernel.BassettAcutePct(N("km"));
            case "bassett_acclimatised": return AltitudeKernel.BassettAcclimatisedPct(N("km"));
            case "peronnet_altitude": return AltitudeKernel.PeronnetPct(N("km"));
            case "wehrlin_linear_6.3pct_per_km_above_0.3": return AltitudeKernel.WehrlinPct(N("km"));
            case "critical_power_time": return FuelKernel.CriticalPowerS(N("P"), N("CP"), N("W"));
            case "weir": return FuelKernel.WeirKcalPerMin(N("vo2"), N("vco2"));
            case "brockway": return FuelKernel.BrockwayKjPerMin(N("vo2"), N("vco2"));
            case "frayn_cho": return FuelKernel.FraynCarbohydrate(N("vo2"), N("vco2"));
            case "frayn_fat": return FuelKernel.FraynFat(N("vo2"), N("vco2"));
            case "jeukendrup_wallis_low_cho": return FuelKernel.JeukendrupLowCarbohydrate(N("vo2"), N("vco2"));
            case "jeukendrup_wallis_high_cho": return FuelKernel.JeukendrupHighCarbohydrate(N("vo2"), N("vco2"));
            case "jeukendrup_wallis_low_fat":
            case "jeukendrup_wallis_high_fat": return FuelKernel.JeukendrupFat(N("vo2"), N("vco2"));
            case "telmosse_2022_cho": return FuelKernel.TelmosseCarbohydrate(N("vo2"), N("vco2"));
            case "telmosse_2022_fat": return FuelKernel.TelmosseFat(N("vo2"), N("vco2"));
            case "rapoport_cho_fraction": return FuelKernel.CarbohydrateShare(N("x"));
            case "rer_kcal_per_l": return FuelKernel.KcalPerL(N("r"));
            case "rer_pct_cho": return FuelKernel.CarbohydratePct(N("r"));
            case "naismith": return HikingKernel.NaismithHours(N("km"), N("asc"));
            case "langmuir": return HikingKernel.LangmuirHours(N("km"), N("asc"), N("desc_5_12"), N("desc_over12"));
            case "din33466": return HikingKernel.DinHours(N("km"), N("asc"), N("desc"));
            case "effort_km": return HikingKernel.EffortKm(N("km"), N("asc_km"), N("desc_km"));
            case "munter": return HikingKernel.MunterHours(N("km"), N("elev"), N("rate"));
            case "tobler_on": return HikingKernel.ToblerKmh(N("s"), offPath: false);
            case "tobler_off": return HikingKernel.ToblerKmh(N("s"), offPath: true);
            case "marquez_perez": return HikingKernel.MarquezPerezKmh(N("s"));
            case "irmischer_m_on": return HikingKernel.IrmischerClarkeMps(N("s"), offPath: false, female: false);
            case "irmischer_m_off": return HikingKernel.IrmischerClarkeMps(N("s"), offPath: true, female: false);
            case "irmischer_f_on": return HikingKernel.IrmischerClarkeMps(N("s"), offPath: false, female: true);
            case "irmischer_f_off": return HikingKernel.IrmischerClarkeMps(N("s"), offPath: true, female: true);
            case "rees": return HikingKernel.ReesMps(N("s"));
            case "davey": return HikingKernel.DaveyMps(N("s"));
            case "campbell_2019": return HikingKernel.CampbellMps(N("s"), N("p"));
            case "sullivan_2020": return HikingKernel.SullivanRawMps(N("s"), N("p"));
            case "swiss_min_per_km": return HikingKernel.SwissMinPerKm(N("slope"));
            default: throw new ArgumentException($"No formula {formula}.");
        }
    }
}
