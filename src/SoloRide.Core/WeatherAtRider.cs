namespace SoloRide;

/// <summary>Weather brought to a place and time on the route.</summary>
/// <param name="Weather">The weather; wind at the rider after the shelter factor. Unknown parts are NaN.</param>
/// <param name="Place">Which forecast place it comes from.</param>
/// <param name="Covered">Whether the forecast covers the instant; if not, everything is unknown (nothing is extrapolated).</param>
public readonly record struct WeatherAtRider(Weather Weather, string Place, bool Covered);
