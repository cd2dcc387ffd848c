using UnitsNet;

namespace SoloRide.Planning;

/// <summary>The typical run of the plan at one place on the way: what pictures and own studies are drawn from.</summary>
/// <remarks>
/// Every draw at its median, so a course in the middle of the ranges that <see cref="PlanStation"/> gives, not a forecast of one day.
/// Water falls as it is drunk and rises where it is filled; the sums count from the start. Immutable.
/// </remarks>
public sealed record PlanTracePoint
{
    /// <summary>Distance from the start.</summary>
    public required Length AlongRoute { get; init; }

    /// <summary>Where it is, with its height.</summary>
    public required GeoPoint Place { get; init; }

    /// <summary>When the typical run is here, on the ride's clock.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Water in hand, after any filling here.</summary>
    public required Volume WaterInHand { get; init; }

    /// <summary>Sweat since the start.</summary>
    public required Volume Sweat { get; init; }

    /// <summary>Drunk since the start.</summary>
    public required Volume Drunk { get; init; }

    /// <summary>Energy used since the start.</summary>
    public required Energy EnergyUsed { get; init; }

    /// <summary>Sweat not drunk back, as a share of body mass [share of 1]; of 75 kg where the rider's mass is not given. What food and its burning yield is not counted.</summary>
    public required double BodyWaterLossFraction { get; init; }

    /// <summary>Rectal temperature by ISO 7933 in the weather of the plan, in sun and shade: the run whose highest is <see cref="PlanHeat.HighestCore"/>; null without a forecast.</summary>
    /// <remarks>A model for work in heat: in the cold it stays near its start and says nothing. Cooling air above 3 m/s counts as 3 m/s.</remarks>
    public Temperature? RectalTemperature { get; init; }

    /// <summary>Time on foot to the nearest way out if the bike is dead; null when no way out is known.</summary>
    public Estimate<TimeSpan>? WayOut { get; init; }

    /// <summary>Name of that way out; empty when none is known.</summary>
    public string WayOutTo { get; init; } = "";
}
