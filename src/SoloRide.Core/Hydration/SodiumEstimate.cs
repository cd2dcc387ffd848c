using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Sodium lost with sweat.</summary>
/// <param name="Concentration">In whole-body sweat.</param>
/// <param name="LossRate">Sodium lost per hour.</param>
/// <param name="Findings">What was assumed.</param>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record SodiumEstimate(Estimate<Molarity> Concentration, Estimate<MassFlow> LossRate, IReadOnlyList<Finding> Findings)
{
    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = HydrationCautions.All;

    /// <summary>The loss, its findings and the cautions in lines.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Render.Lines(
        $"Sodium lost {Text.F(1000 * LossRate.Typical.GramsPerHour, 0)} mg/h ({Text.F(1000 * LossRate.Low.GramsPerHour, 0)} to {Text.F(1000 * LossRate.High.GramsPerHour, 0)}), "
        + $"{Text.F(Concentration.Typical.MillimolesPerLiter, 0)} mmol/L in sweat ({Text.F(Concentration.Low.MillimolesPerLiter, 0)} to {Text.F(Concentration.High.MillimolesPerLiter, 0)}).", Findings, Cautions);
}
