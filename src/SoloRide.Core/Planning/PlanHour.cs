using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Heat and thunder at one full hour after the start, whether the rider is still out or not.</summary>
/// <param name="At">The instant, on the ride's clock.</param>
/// <param name="WetBulbGlobe">Wet-bulb globe temperature in the open, at the middle height of the route.</param>
/// <param name="Heat">Category of heat that it belongs to.</param>
/// <param name="ThunderProbability">Chance of thunder at the highest point [share of 1]; NaN when the forecast does not say.</param>
public sealed record PlanHour(DateTimeOffset At, Temperature WetBulbGlobe, HeatCategory Heat, double ThunderProbability);
