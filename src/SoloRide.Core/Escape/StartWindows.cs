namespace SoloRide.Escape;

/// <summary>All starting times that meet every clock: perhaps none, perhaps several spans.</summary>
/// <param name="Windows">The spans, in order; empty when no start meets every clock.</param>
/// <param name="Findings">What a reader should know.</param>
public sealed record StartWindows(IReadOnlyList<StartWindow> Windows, IReadOnlyList<Finding> Findings)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;

    /// <summary>Whether a start at an instant meets every clock.</summary>
    /// <param name="start">The instant.</param>
    /// <returns>Whether it lies in a span.</returns>
    public bool Contains(DateTimeOffset start) => Windows.Any(w => w.From <= start && start <= w.To);
}
