using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>The body at the end of a minute: all that is needed to go on exactly where a run stopped.</summary>
/// <remarks><c>default</c> is not meaningful; begin with <see cref="Start"/>. Going on from a state gives bit for bit what one run gives.</remarks>
public readonly record struct HeatStrainState
{
    /// <summary>A rested body before minute 1: skin 34.1 C, core and rectal 36.8 C, no sweat.</summary>
    [Source("iso-7933-2004", "initial values")]
    public static HeatStrainState Start { get; } = new()
    {
        SkinC = HeatStrainConstants.StartSkinC,
        CoreC = HeatStrainConstants.StartCoreC,
        RectalC = HeatStrainConstants.StartCoreC,
        CoreTargetC = HeatStrainConstants.StartCoreC,
        SkinShareFraction = HeatStrainConstants.StartSkinShare,
        ClothingSurfaceC = HeatStrainConstants.StartSkinC,
    };

    /// <summary>Minutes since the start.</summary>
    public int Minute { get; init; }

    /// <summary>Mean skin temperature [°C].</summary>
    public double SkinC { get; init; }

    /// <summary>Core temperature [°C].</summary>
    public double CoreC { get; init; }

    /// <summary>Rectal temperature [°C], the one the limit of 38 °C is set for.</summary>
    public double RectalC { get; init; }

    /// <summary>Core temperature that the metabolic rate alone would settle to [°C].</summary>
    public double CoreTargetC { get; init; }

    /// <summary>Share of the body's mass at skin temperature.</summary>
    public double SkinShareFraction { get; init; }

    /// <summary>Clothing surface [°C], where the next minute's solution begins.</summary>
    public double ClothingSurfaceC { get; init; }

    /// <summary>Predicted sweat rate as heat [W/m²].</summary>
    public double SweatWPerM2 { get; init; }

    /// <summary>Water lost since the start by sweat and breath [g].</summary>
    public double LossG { get; init; }

    /// <summary>First minute with a rectal temperature of 38 °C or more; 0 while not reached.</summary>
    public int CoreLimitMinute { get; init; }

    /// <summary>First minute at which an average person has lost the allowed share of mass; 0 while not reached.</summary>
    public int MeanLossLimitMinute { get; init; }

    /// <summary>The same for 95 of 100 persons.</summary>
    public int LossLimitMinute { get; init; }
}
