using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>What a change of pressure does to one tyre, as changes; nothing here is advice on the pressure itself.</summary>
/// <param name="Before">Gauge pressure before.</param>
/// <param name="After">Gauge pressure after.</param>
/// <param name="PatchArea">Area on the ground, after over before.</param>
/// <param name="Deflection">How far the tyre sinks under the same load, after over before.</param>
/// <param name="BottomingEnergy">Energy of a blow that presses the tyre to the rim, after over before: the margin against a pinch.</param>
/// <param name="BottomingSpeed">Speed at which the same stone presses it to the rim, after over before.</param>
/// <param name="Findings">What the reader should know, such as a maker's limit that is passed.</param>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record TyreChange(
    Pressure Before, Pressure After, Ratio PatchArea, Ratio Deflection, Ratio BottomingEnergy, Ratio BottomingSpeed, IReadOnlyList<Finding> Findings)
{
    /// <summary>The change in words, with findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines(
            $"{Text.F(Before.PoundsForcePerSquareInch, 1)} psi becomes {Text.F(After.PoundsForcePerSquareInch, 1)} psi. Of what it was: area on the ground {Percent(PatchArea)}, "
            + $"deflection {Percent(Deflection)}, energy to press the tyre to the rim {Percent(BottomingEnergy)}, speed at the same stone {Percent(BottomingSpeed)}.",
            Findings,
            KitCautions.Sentences);

    private static string Percent(Ratio r) => Text.F(r.Percent, 1) + " %";
}
