using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Filter or carry all: both, and what happens when the filter is lost.</summary>
/// <param name="CarryAll">Only water that needs no treatment.</param>
/// <param name="Treat">With the first method; when that counts as lost already, the same as <see cref="FirstMethodLost"/>.</param>
/// <param name="FirstMethodLost">With the second method, or none.</param>
/// <param name="Lighter">The way that carries fewer kilogram-kilometres among those that work; null when none does.</param>
/// <param name="SavedKgKm">By how much [kg km]; 0 when only one works.</param>
/// <param name="Findings">What each way leaves open.</param>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record FilterOrCarry(
    WaterSupplyOption CarryAll,
    WaterSupplyOption Treat,
    WaterSupplyOption FirstMethodLost,
    WaterSupplyWay? Lighter,
    double SavedKgKm,
    IReadOnlyList<Finding> Findings)
{
    /// <summary>The choice in one line.</summary>
    public string Words => Lighter switch
    {
        null => "Neither works within the limits: place a cache, carry more, or shorten the ride.",
        WaterSupplyWay.CarryAll when !Treat.Works => "Carry all: treating does not work within the limits.",
        WaterSupplyWay.CarryAll => $"Carry all: {Internal.Text.F(SavedKgKm, 0)} kg km less than treating, and no stops to treat.",
        _ when !CarryAll.Works => "Treat on the way: carrying all does not work within the limits.",
        _ => $"Treat on the way: {Internal.Text.F(SavedKgKm, 0)} kg km less than carrying all"
            + (Treat.TreatmentTime is { } t ? $", for {Internal.Text.Span(t.Typical)} of treating." : "; its time is unknown."),
    };

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = HydrationCautions.All;

    /// <summary>The choice, its findings and the cautions in lines.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Render.Lines(Words, Findings, Cautions);
}
