namespace SoloRide.Escape;

/// <summary>How long until silence is noticed.</summary>
/// <param name="Mean">On average, when the event may happen at any moment between two check-ins.</param>
/// <param name="Worst">When it happens right after a check-in.</param>
public sealed record DetectionDelay(TimeSpan Mean, TimeSpan Worst);
