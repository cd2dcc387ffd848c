using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Constants of the predicted heat strain model.</summary>
[Source("iso-7933-2004", "Annexes A to E")]
internal static class HeatStrainConstants
{
    public const double StandardMassKg = 75;
    public const double StandardHeightM = 1.80;
    public const double StaticPermeability = 0.38;
    public const double PlainEmissivity = 0.97;
    public const double StefanBoltzmann = 5.67e-8;
    public const double ZeroK = 273;

    /// <summary>Body heat constant of the listing [W min kg/(m2 K kg) times m2]; 57.83, not 58.15, meets the printed examples.</summary>
    public const double BodyHeat = 57.83;

    public const double StartSkinC = 34.1;
    public const double StartCoreC = 36.8;
    public const double StartSkinShare = 0.3;
    public const double CoreLimitC = 38;

    public const double HighestAirSpeedMps = 3;
    public const double LowestAirC = 15;
    public const double HighestAirC = 50;
    public const double HighestRadiantAboveAirK = 60;
    public const double LowestClothingClo = 0.1;
    public const double HighestClothingClo = 1.0;
    public const double HighestVapourKpa = 4.5;
    public const double HighestMetabolic2004 = 450;
    public const double LowestMetabolic2004 = 100;

    [Source("iso-7933-2023", "ranges")]
    public const double HighestMetabolic2023 = 250;

    [Source("iso-7933-2023", "ranges")]
    public const double LowestMetabolic2023 = 56;

    [Source("iso-7933-2023", "ranges")]
    public const double LowestVapour2023Kpa = 0.5;
}
