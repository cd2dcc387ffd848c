using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>What height, temperature and a few psi more or less do to a tyre.</summary>
/// <remarks>
/// Valid for gauge pressures above zero, heights from -500 to 11 000 m, -50 to 80 °C. A tyre that stretches gains slightly less with height. Rolling and grip
/// are not counted. Sources: icao-isa, ideal-gas, renart-2019, derived-tyre.
/// </remarks>
[Entry]
public static class TyreCalculator
{
    /// <summary>
    /// What riders add on a lone remote ride with one spare tube: 3 psi is our reading of "a few". Common practice, no source.
    /// </summary>
    [Source("practice-tyre-margin", "a few psi more")]
    public static Pressure UsualRemoteExtra { get; } = Pressure.FromPoundsForcePerSquareInch(3);

    /// <summary>What the gauge shows at another height and temperature, and what that changes.</summary>
    /// <param name="gauge">Gauge pressure when pumped; above 0.</param>
    /// <param name="pumpedAt">Height where it was pumped; -500 to 11 000 m.</param>
    /// <param name="pumpedTemperature">Temperature of the air in the tyre then; -50 to 80 °C.</param>
    /// <param name="riddenAt">Height where it is ridden; -500 to 11 000 m.</param>
    /// <param name="riddenTemperature">Temperature of the air in the tyre there; -50 to 80 °C.</param>
    /// <param name="limits">The makers' limits.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range, or the tyre would be empty.</exception>
    public static TyreChange AfterClimb(Pressure gauge, Length pumpedAt, Temperature pumpedTemperature, Length riddenAt, Temperature riddenTemperature, TyreLimits? limits = null)
    {
        double p0 = Guard.Positive(gauge.Pascals, "Pa", nameof(gauge));
        double h0 = Guard.InRange(pumpedAt.Meters, TyreKernel.LowestM, TyreKernel.HighestM, "m", nameof(pumpedAt));
        double h1 = Guard.InRange(riddenAt.Meters, TyreKernel.LowestM, TyreKernel.HighestM, "m", nameof(riddenAt));
        double t0 = Guard.InRange(pumpedTemperature.DegreesCelsius, -50, 80, "C", nameof(pumpedTemperature));
        double t1 = Guard.InRange(riddenTemperature.DegreesCelsius, -50, 80, "C", nameof(riddenTemperature));
        double p1 = TyreKernel.GaugePa(p0, h0, h1, t0, t1);
        return p1 > 0
            ? Change(p0, p1, limits)
            : throw new ArgumentOutOfRangeException(nameof(gauge), $"{Text.F(p0 / 1000, 1)} kPa", $"The tyre would be empty: {Text.F(p0 / TyreKernel.PaPerPsi, 1)} psi becomes {Text.F(p1 / TyreKernel.PaPerPsi, 1)} psi; above 0 psi is needed.");
    }

    /// <summary>What another pressure changes at the same place.</summary>
    /// <param name="before">Gauge pressure before; above 0.</param>
    /// <param name="after">Gauge pressure after; above 0.</param>
    /// <param name="limits">The makers' limits.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A pressure not above zero.</exception>
    public static TyreChange Compare(Pressure before, Pressure after, TyreLimits? limits = null)
        => Change(Guard.Positive(before.Pascals, "Pa", nameof(before)), Guard.Positive(after.Pascals, "Pa", nameof(after)), limits);

    private static TyreChange Change(double beforePa, double afterPa, TyreLimits? limits)
    {
        var findings = new List<Finding>();
        double low = limits?.LowestPa ?? double.NaN, high = limits?.HighestPa ?? double.NaN;
        if (afterPa > high)
        {
            findings.Add(new Finding(
                KitFindingCodes.TyreAboveLimit, FindingSeverity.Warning, "tyre pressure",
                $"{Psi(afterPa)} is above the {Psi(high)} that tyre or rim allow: let air out. The makers' limits win."));
        }

        if (afterPa < low)
        {
            findings.Add(new Finding(
                KitFindingCodes.TyreBelowLimit, FindingSeverity.Warning, "tyre pressure",
                $"{Psi(afterPa)} is below the {Psi(low)} that the tyre needs: pump up. The makers' limits win."));
        }

        if (double.IsNaN(high))
        {
            findings.Add(new Finding(
                KitFindingCodes.TyreLimitUnknown, FindingSeverity.Caution, "tyre pressure",
                "The makers' highest pressure for tyre and rim is not given: read it on the tyre and the rim."));
        }

        double k = afterPa / beforePa;
        return new TyreChange(
            Pressure.FromPascals(beforePa), Pressure.FromPascals(afterPa),
            Share(TyreKernel.PatchRatio(k)), Share(TyreKernel.DeflectionRatio(k)), Share(TyreKernel.BottomingEnergyRatio(k)), Share(TyreKernel.BottomingSpeedRatio(k)), findings);
    }

    private static Ratio Share(double value) => Ratio.FromDecimalFractions(value);

    private static string Psi(double pa) => $"{Text.F(pa / TyreKernel.PaPerPsi, 1)} psi ({Text.F(pa / 1000, 0)} kPa)";
}
