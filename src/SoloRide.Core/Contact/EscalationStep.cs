namespace SoloRide.Contact;

/// <summary>What the contact does in a phase.</summary>
/// <param name="Phase">The phase.</param>
/// <param name="From">When it begins at the end of the ride; null when an event begins it.</param>
/// <param name="Trigger">What begins it.</param>
/// <param name="Actions">What to do, in order.</param>
public sealed record EscalationStep(EscalationPhase Phase, DateTimeOffset? From, string Trigger, IReadOnlyList<string> Actions);
