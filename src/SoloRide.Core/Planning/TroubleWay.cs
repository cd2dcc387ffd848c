using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One way out on foot after trouble.</summary>
/// <param name="ExitName">To where.</param>
/// <param name="Distance">How far.</param>
/// <param name="Time">How long: P10 to P90; without a spread when the pace was tried out.</param>
/// <param name="Arrives">Arrival at the typical time.</param>
/// <param name="Dark">How much of the upper time lies in the dark.</param>
/// <param name="Water">Water that the upper time takes; null when it could not be computed.</param>
/// <param name="Covered">Whether water in hand and light suffice; unknown when one of them is not known.</param>
public sealed record TroubleWay(string ExitName, Length Distance, Estimate<TimeSpan> Time, DateTimeOffset Arrives, TimeSpan Dark, Volume? Water, Known Covered);
