using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A place on the route from where going back and going on take the same time: past it, going back is never the faster way out.</summary>
/// <param name="AlongRoute">Distance from the start of the route.</param>
/// <param name="Time">Time out, either way.</param>
/// <param name="ExitBack">Exit reached by going back.</param>
/// <param name="ExitOn">Exit reached by going on.</param>
public sealed record EqualTimePoint(Length AlongRoute, TimeSpan Time, string ExitBack, string ExitOn);
