using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A place where all wait for one another.</summary>
/// <param name="Name">Name.</param>
/// <param name="AlongRoute">Distance along the route.</param>
/// <param name="FirstThere">When the first one is there, if all ride at their own pace from the stop before.</param>
/// <param name="LastThere">When the last one is there.</param>
/// <param name="Wait">How long the first one waits for the last, at typical pace.</param>
public sealed record RegroupOutlook(string Name, Length AlongRoute, DateTimeOffset FirstThere, Estimate<DateTimeOffset> LastThere, TimeSpan Wait);
