using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Where to fill and up to how much.</summary>
/// <param name="Name">The source; "start" at the beginning.</param>
/// <param name="AlongRoute">Where.</param>
/// <param name="FillTo">Water in hand when leaving.</param>
/// <param name="WetProbability">Chance that the source holds water [share of 1].</param>
public sealed record WaterFill(string Name, Length AlongRoute, Volume FillTo, double WetProbability);
