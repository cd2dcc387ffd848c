using SoloRide.Exposure;

namespace SoloRide.Accuracy;

/// <summary>Reads the rows of the required-insulation table.</summary>
internal static class InsulationTable
{
    public static InsulationInput Input(CsvRow row) => new()
    {
        AirC = row.Num("ta_c"),
        RadiantC = row.Num("tr_c"),
        AirSpeedMps = row.Num("v_ms"),
        RelHumidityPct = row.Num("rh_pct"),
        MetabolicWPerM2 = row.Num("M_wm2"),
        WorkWPerM2 = row.Num("W_wm2"),
        WalkMps = row.Num("walk_ms"),
        PermeabilityLPerM2S = row.Num("perm_l_m2s"),
    };

    /// <summary>The table calls more than 8 h unlimited.</summary>
    public static double AsTabled(double hours) => hours <= 8 ? hours : double.PositiveInfinity;
}
