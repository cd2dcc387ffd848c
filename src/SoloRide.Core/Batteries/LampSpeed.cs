using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>How fast one may ride in a light and still stop within what it shows.</summary>
/// <param name="SeeDistance">How far the beam gives the light needed.</param>
/// <param name="TopSpeed">The speed whose stopping distance is that far; 0 when the bike cannot stop on the slope.</param>
/// <param name="CanStop">False when the brakes cannot hold the slope on this surface: walk.</param>
public sealed record LampSpeed(Length SeeDistance, Speed TopSpeed, bool CanStop);
