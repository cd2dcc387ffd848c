namespace SoloRide.Planning;

/// <summary>Air and radiation at the rider at one time and height.</summary>
/// <param name="AirC">[deg C].</param>
/// <param name="RelHumidityPct">[%].</param>
/// <param name="AirMps">[m/s] Air over the body, wind or riding.</param>
/// <param name="RadiantSunC">[deg C] Mean radiant temperature in the open.</param>
/// <param name="RadiantShadeC">[deg C] The same with the sun behind terrain.</param>
/// <param name="AbsorbedSunWPerM2">[W/m2] Sunlight taken up per radiating surface in the open.</param>
/// <param name="AbsorbedShadeWPerM2">[W/m2] The same behind terrain: the sky alone.</param>
internal readonly record struct HeatAir(
    double AirC, double RelHumidityPct, double AirMps, double RadiantSunC, double RadiantShadeC, double AbsorbedSunWPerM2, double AbsorbedShadeWPerM2)
{
    public static HeatAir Between(in HeatAir a, in HeatAir b, double share) => new(
        a.AirC + ((b.AirC - a.AirC) * share), a.RelHumidityPct + ((b.RelHumidityPct - a.RelHumidityPct) * share), a.AirMps + ((b.AirMps - a.AirMps) * share),
        a.RadiantSunC + ((b.RadiantSunC - a.RadiantSunC) * share), a.RadiantShadeC + ((b.RadiantShadeC - a.RadiantShadeC) * share),
        a.AbsorbedSunWPerM2 + ((b.AbsorbedSunWPerM2 - a.AbsorbedSunWPerM2) * share), a.AbsorbedShadeWPerM2 + ((b.AbsorbedShadeWPerM2 - a.AbsorbedShadeWPerM2) * share));
}
