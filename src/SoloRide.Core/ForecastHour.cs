namespace SoloRide;

/// <summary>One line of a forecast.</summary>
/// <param name="Time">The instant it holds for.</param>
/// <param name="Weather">What is forecast; wind at 10 m above ground.</param>
public sealed record ForecastHour(DateTimeOffset Time, Weather Weather);
