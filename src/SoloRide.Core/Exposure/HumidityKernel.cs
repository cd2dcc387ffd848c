using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Saturation pressures over water [kPa].</summary>
internal static class HumidityKernel
{
    /// <summary>Tetens form as the heat strain standard uses it for skin.</summary>
    [Source("iso-7933-2004", "saturation pressure at skin temperature")]
    public static double TetensKpa(double tC) => 0.6105 * Math.Exp(17.27 * tC / (tC + 237.3));

    /// <summary>Hyland and Wexler; what the open 2004 figures use to bring relative humidity to vapour pressure.</summary>
    [Source("hyland-wexler-1983", "over liquid water")]
    public static double HylandWexlerKpa(double tC)
    {
        double t = tC + Si.ZeroCelsiusK;
        return Math.Exp((-5800.2206 / t) + 1.3914993 - (0.048640239 * t) + (4.1764768e-5 * t * t) - (1.4452093e-8 * t * t * t) + (6.5459673 * Math.Log(t))) / 1000;
    }

    /// <summary>Form of the required-insulation standard.</summary>
    [Source("iso-11079-2007", "saturation pressure")]
    public static double ColdKpa(double tC) => 0.1333 * Math.Exp(18.6686 - (4030.183 / (tC + 235)));
}
