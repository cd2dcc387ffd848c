namespace SoloRide.Escape;

/// <summary>Whether an alternate exit must be named before leaving.</summary>
/// <param name="Required">Whether it must.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="Alternate">The best exit other than the planned one that suffices; null when none does, or none was asked for.</param>
/// <param name="Findings">What a reader should know.</param>
public sealed record AlternateNeed(bool Required, string Reason, BailOutOption? Alternate, IReadOnlyList<Finding> Findings)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
