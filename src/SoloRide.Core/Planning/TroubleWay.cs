using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One way out on foot after trouble.</summary>
/// <param name="ExitName">To where.</param>
/// <param name="Distance">How far.</param>
/// <param name="Time">How long: P10 to P90; without a spread when the pace was tried out.</param>
/// <param name="Arrives">Arrival at the typical time.</param>
/// <param name="Dark">How much of the upper time lies in the dark.</param>
/// <param name="Water">Water that the walk takes in 9 of 10 cases: time and sweat together, never more than can be drunk in that time; null when it could not be computed.</param>
/// <param name="Covered">Whether water in hand and light suffice; a little less water than that is rationed and counts as covered. Unknown when one of them is not known.</param>
public sealed record TroubleWay(string ExitName, Length Distance, Estimate<TimeSpan> Time, DateTimeOffset Arrives, TimeSpan Dark, Volume? Water, Known Covered)
{
    /// <summary>Water short of what the walk takes; zero when it suffices, null when the water in hand is not known.</summary>
    public Volume? Missing { get; init; }

    /// <summary>Whether the walk is in light, or a lamp is carried.</summary>
    public bool Lit { get; init; } = true;
}
