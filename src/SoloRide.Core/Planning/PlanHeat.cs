using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Predicted heat strain along the ride: the body goes on minute by minute from where the minute before ended.</summary>
/// <remarks>
/// ISO 7933 (2004 edition) on the plan's own clock, effort, air, wind and sun. Hard riding lies at or beyond the standard's range and passes 38 °C in
/// cool air too: read it as a comparison between plans, not as a diagnosis. Ranges are P10 to P90 of what is drawn and of the model's field error
/// (root mean square 0.3 K). Sources: iso-7933-2004, ioannou-2019.
/// </remarks>
public sealed record PlanHeat
{
    /// <summary>Highest predicted rectal temperature of the ride.</summary>
    public required Estimate<Temperature> HighestCore { get; init; }

    /// <summary>Whether the highest typical value lies above 40 °C, where heat stroke begins: the figure is then told to nobody, only that it is past any bearable value. Source: bouchama-2002.</summary>
    public bool PastBearable => HighestCore.Typical.DegreesCelsius > HeatAlong.BearableC;

    /// <summary>Where on the typical run.</summary>
    public required Length HighestAt { get; init; }

    /// <summary>When on the typical run.</summary>
    public required DateTimeOffset HighestTime { get; init; }

    /// <summary>When the typical run reaches 38 °C; null when it does not.</summary>
    public DateTimeOffset? LimitReached { get; init; }

    /// <summary>Share of samples that reach 38 °C [share of 1]; NaN without samples.</summary>
    public required double LimitProbability { get; init; }

    /// <summary>Samples that heat strain was followed in, the first ones of the plan; 0 without samples.</summary>
    public required int Samples { get; init; }
}
