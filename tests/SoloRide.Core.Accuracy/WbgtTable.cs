using SoloRide.Exposure;

namespace SoloRide.Accuracy;

/// <summary>Reads the rows of the WBGT table: cosine of zenith, direct share and irradiance from the table, wind at 2 m computed.</summary>
internal static class WbgtTable
{
    public static (WbgtRoots Roots, double PsychrometricC) Solve(CsvRow row)
    {
        double cz = row.Num("cos_zenith"), solar = row.Num("solar_used_wm2"), fdir = row.Num("f_direct");
        double wind = row.Num("wind_ms"), height = row.Num("wind_height_m");
        wind = WbgtKernel.WindAt2mMps(wind, height, WbgtKernel.StabilityClass(cz > 0, wind, solar, row.Num("dT_c")), row.Num("urban") == 1);
        double ta = row.Num("ta_c"), rh = row.Num("rh_pct") / 100, p = row.Num("p_hpa");
        return (WbgtKernel.Solve(ta, rh, wind, p, solar, cz, fdir), WbgtKernel.PsychrometricWetC(ta, rh, wind, p));
    }

    public static double CertifyK(CsvRow row, in WbgtRoots roots)
    {
        double cz = row.Num("cos_zenith"), solar = row.Num("solar_used_wm2"), wind = row.Num("wind_ms");
        wind = WbgtKernel.WindAt2mMps(wind, row.Num("wind_height_m"), WbgtKernel.StabilityClass(cz > 0, wind, solar, row.Num("dT_c")), row.Num("urban") == 1);
        return WbgtKernel.CertifyK(in roots, row.Num("ta_c"), row.Num("rh_pct") / 100, wind, row.Num("p_hpa"), solar, cz, row.Num("f_direct"));
    }
}
