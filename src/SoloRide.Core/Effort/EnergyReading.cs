using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>An energy by one method, with its range and what to know about it.</summary>
/// <param name="Energy">The energy; P10 to P90.</param>
/// <param name="Span">Over which time.</param>
/// <param name="Method">In words.</param>
/// <param name="Findings">Assumptions and limits of validity.</param>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record EnergyReading(Estimate<Energy> Energy, TimeSpan Span, string Method, IReadOnlyList<Finding> Findings)
{
    /// <summary>Mean power over the time, typical.</summary>
    public Power MeanPower => Power.FromWatts(Energy.Typical.Joules / Span.TotalSeconds);

    /// <summary>The energy with its range, method, findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Render.Lines($"{Energy} in {Text.Span(Span)}, by {Method}.", Findings, Cautions.Sentences);
}
