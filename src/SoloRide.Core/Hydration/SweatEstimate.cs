using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>A sweat rate as a band over models.</summary>
/// <param name="Rate">Whole-body sweat rate; the range is wide because the models differ and people differ.</param>
/// <param name="Models">Each model by itself; the band is wider than they are.</param>
/// <param name="RequiredEvaporationWPerM2">Heat to be lost by sweat [W/m²]; negative when dry loss is more than enough.</param>
/// <param name="GreatestEvaporationWPerM2">What the air can take up [W/m²].</param>
/// <param name="Findings">What was assumed, and where the models are outside their range.</param>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record SweatEstimate(
    Estimate<VolumeFlow> Rate,
    IReadOnlyList<SweatModelRate> Models,
    double RequiredEvaporationWPerM2,
    double GreatestEvaporationWPerM2,
    IReadOnlyList<Finding> Findings)
{
    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = HydrationCautions.All;

    /// <summary>The band, its findings and the cautions in lines.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Render.Lines(
        $"Sweat {Text.F(Rate.Typical.LitersPerHour, 2)} L/h ({Text.F(Rate.Low.LitersPerHour, 2)} to {Text.F(Rate.High.LitersPerHour, 2)}).", Findings, Cautions);
}
