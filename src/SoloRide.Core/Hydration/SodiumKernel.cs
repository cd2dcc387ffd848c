using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Sodium concentration of whole-body sweat [mmol/L].</summary>
internal static class SodiumKernel
{
    [Source("baker-2016", "whole-body sweat sodium of athletes, mean and SD")]
    public const double MeanMmolPerL = 35.9, SpreadMmolPerL = 10.4;

    [Source("baker-2016", "mean sweat rate of the same athletes")]
    public const double MeanSweatLph = 1.21;

    [Source("baker-2016", "lowest and highest observed")]
    public const double LeastMmolPerL = 18.2, MostMmolPerL = 70.8;

    /// <summary>Rise with sweat rate.</summary>
    [Source("barnes-2019", "slope of the group means of sodium loss over sweat rate, own regression of five groups: 5.9")]
    public const double SlopeMmolPerLPerLph = 6;

    /// <summary>Fall after about ten days in heat, at equal sweat rate.</summary>
    [Source("buono-2007", "fall of the intercept in 10 days")]
    public const double AcclimatisationMmolPerL = 15;

    /// <summary>The pooled athletes were partly acclimatised: half of the fall to either side.</summary>
    [Source("assumption-pooled-acclimatisation", "half of the fall on either side of the pooled mean")]
    public const double PooledShareFraction = 0.5;

    /// <summary>Forearm patch to whole body.</summary>
    [Source("baker-2016", "0.57 x + 11.05")]
    public static double WholeBodyFromForearmMmolPerL(double forearmMmolPerL) => (0.57 * forearmMmolPerL) + 11.05;

    /// <summary>Mean concentration at a sweat rate, within the observed range.</summary>
    public static double ConcentrationMmolPerL(double sweatLph, Known acclimatised)
    {
        double shift = acclimatised switch { Known.Yes => -PooledShareFraction, Known.No => PooledShareFraction, _ => 0 } * AcclimatisationMmolPerL;
        return Math.Clamp(MeanMmolPerL + shift + (SlopeMmolPerLPerLph * (sweatLph - MeanSweatLph)), LeastMmolPerL, MostMmolPerL);
    }

    /// <summary>Concentration at a standard normal deviate of the person, within the observed range.</summary>
    public static double ConcentrationMmolPerL(double sweatLph, Known acclimatised, double deviate)
        => Math.Clamp(ConcentrationMmolPerL(sweatLph, acclimatised) + (deviate * SpreadMmolPerL), LeastMmolPerL, MostMmolPerL);
}
