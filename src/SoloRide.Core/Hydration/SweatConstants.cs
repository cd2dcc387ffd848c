using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Priors and limits of the sweat estimate.</summary>
internal static class SweatConstants
{
    [Source("iso-7933-2004", "static moisture permeability index")]
    public const double ClothingPermeability = 0.38;

    [Source("assumption-adult-prior", "stands in for an unknown body")]
    public const double PriorMassKg = 75, PriorHeightM = 1.75;

    [Source("assumption-unknown-weather", "stand-ins for unknown humidity and air speed")]
    public const double PriorHumidityPct = 50, PriorAirMps = 1;

    /// <summary>P10 to P90 of an own rate from day to day in like conditions.</summary>
    [Source("assumption-own-rate-spread", "day-to-day spread of a weighed rate")]
    public const double OwnRateSpreadFraction = 0.25;

    [Source("gonzalez-2009", "range of the data")]
    public const double LeastAirC = 15, MostAirC = 46, LeastVapourKpa = 0.27, MostVapourKpa = 4.45, LeastAirMps = 0.4, MostAirMps = 2.5, MostMetabolicWpm2 = 450;

    [Source("shapiro-1982", "range of required and greatest evaporative loss")]
    public const double LeastEreqWpm2 = 50, MostEreqWpm2 = 360, LeastEmaxWpm2 = 20, MostEmaxWpm2 = 525;
}
