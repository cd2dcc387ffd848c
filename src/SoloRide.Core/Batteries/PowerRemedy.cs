namespace SoloRide.Batteries;

/// <summary>One thing that helps the device that is most likely to fail first, with what it changes; each by itself.</summary>
/// <param name="Device">Device.</param>
/// <param name="Kind">What to do.</param>
/// <param name="Text">The same in words.</param>
/// <param name="LastsToEndProbability">P(lasts to the end of the ride) with it [share of 1].</param>
/// <param name="LastsNightProbability">P(lasts ride and unplanned night) with it [share of 1].</param>
public sealed record PowerRemedy(string Device, PowerRemedyKind Kind, string Text, double LastsToEndProbability, double LastsNightProbability);
