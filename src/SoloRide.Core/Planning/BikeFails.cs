using UnitsNet;

namespace SoloRide.Planning;

/// <summary>If the bike breaks at the worst point: the walk out and what it takes.</summary>
public sealed record BikeFails
{
    /// <summary>Where the walk out is longest.</summary>
    public required Length WorstAt { get; init; }

    /// <summary>The walk out from there.</summary>
    public required Estimate<TimeSpan> WalkOut { get; init; }

    /// <summary>To which way out; empty when none is known.</summary>
    public required string ExitName { get; init; }

    /// <summary>How: pushing the bike or with it left behind.</summary>
    public required TravelMode Mode { get; init; }

    /// <summary>Water that the walk takes at its upper end.</summary>
    public required Volume Water { get; init; }

    /// <summary>Food that the walk takes.</summary>
    public required Energy Food { get; init; }

    /// <summary>Hours of it in the dark when it begins at the late passing time.</summary>
    public required TimeSpan Dark { get; init; }

    /// <summary>Share of the route from where the walk out takes more than one and two hours [share of 1].</summary>
    public required (double OverOneHourFraction, double OverTwoHoursFraction) Remote { get; init; }
}
