using SoloRide.Accuracy;
using SoloRide.Exposure;

namespace SoloRide.Accuracy;

/// <summary>Reads the rows of the heat strain tables.</summary>
internal static class HeatStrainTable
{
    public static HeatStrainInput AnnexF2004(CsvRow row) => HeatStrainInput.Standard with
    {
        AirC = row.Num("ta_c"),
        RadiantC = row.Num("tr_c"),
        AirSpeedMps = row.Num("va_ms"),
        VapourKpa = row.Num("pa_kpa"),
        MetabolicWPerM2 = row.Num("M_wm2"),
        ClothingClo = row.Num("icl_clo"),
        Posture = Posture(row),
        WalkMps = row.Num("walk_ms"),
        WalkToWindDeg = row.Num("theta_deg"),
        MassKg = row.Num("mass_kg"),
        HeightM = row.Num("height_m"),
        Acclimatised = row.Num("accl") == 100,
    };

    public static HeatStrainInput AnnexF2023(CsvRow row)
    {
        HeatStrainInput x = HeatStrainInput.Standard with
        {
            Edition = HeatStrainEdition.Iso7933Of2023,
            AirC = row.Num("ta_c"),
            RadiantC = row.Num("tr_c"),
            AirSpeedMps = row.Num("v_ms"),
            VapourKpa = row.Num("rh_pct") / 100 * HumidityKernel.TetensKpa(row.Num("ta_c")),
            ClothingClo = row.Num("clo"),
            Posture = Posture(row),
            ReflectiveShareFraction = row.Num("a_p"),
            ReflectiveFactor = row.Num("f_r"),
            Acclimatised = row.Num("accl") == 100,
        };
        return x with { MetabolicWPerM2 = row.Num("M_w") / x.AreaM2 };
    }

    public static HeatStrainInput Random(CsvRow row)
    {
        bool newer = row.Num("edition") == 2023;
        double ta = row.Num("ta_c");
        return HeatStrainInput.Standard with
        {
            Edition = newer ? HeatStrainEdition.Iso7933Of2023 : HeatStrainEdition.Iso7933Of2004,
            AirC = ta,
            RadiantC = row.Num("tr_c"),
            AirSpeedMps = row.Num("v_ms"),
            VapourKpa = row.Num("rh_pct") / 100 * (newer ? HumidityKernel.TetensKpa(ta) : HumidityKernel.HylandWexlerKpa(ta)),
            MetabolicWPerM2 = row.Num("M_wm2"),
            ClothingClo = row.Num("clo"),
            Posture = Posture(row),
            WalkMps = row.Num("walk_ms"),
            WalkToWindDeg = row.Num("theta_deg"),
            ReflectiveShareFraction = row.Num("a_p"),
            ReflectiveFactor = row.Num("f_r"),
            MassKg = row.Num("mass_kg"),
            HeightM = row.Num("height_m"),
            Acclimatised = row.Num("accl") == 100,
            WaterIsFree = row.Num("drink") == 1,
        };
    }

    /// <summary>Runs a row; limits as the tables print them: the duration when not reached, cut to 0.6 without water, in both editions.</summary>
    public static (HeatStrainStepper Body, double D50, double D95, double DTre) Run(HeatStrainInput input, int minutes, bool drinks)
    {
        var body = HeatStrainStepper.Rested;
        var setup = new HeatStrainSetup(in input);
        HeatStrainKernel.Advance(ref body, in setup, minutes);
        double Reached(int minute) => minute == 0 ? minutes : minute;
        double d95 = Reached(body.LossLimitMinute), d50 = Reached(body.MeanLossLimitMinute);
        if (!drinks)
        {
            if (body.LossLimitMinute > 0)
            {
                d95 *= 0.6;
            }

            d50 = d95;
        }

        return (body, d50, d95, Reached(body.CoreLimitMinute));
    }

    private static BodyPosture Posture(CsvRow row) => row["posture"] switch
    {
        "standing" => BodyPosture.Standing,
        "crouching" => BodyPosture.Crouching,
        _ => BodyPosture.Sitting,
    };
}
