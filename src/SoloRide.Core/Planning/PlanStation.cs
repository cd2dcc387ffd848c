using SoloRide.Daylight;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A place on the way with what the plan expects there.</summary>
/// <remarks>Ranges are P10 to P90. Immutable.</remarks>
public sealed record PlanStation
{
    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>What it is.</summary>
    public required StationKind Kind { get; init; }

    /// <summary>Distance from the start.</summary>
    public required Length AlongRoute { get; init; }

    /// <summary>Where it is.</summary>
    public required GeoPoint Place { get; init; }

    /// <summary>When the rider comes here.</summary>
    public required Estimate<DateTimeOffset> Arrival { get; init; }

    /// <summary>19 of 20 such rides are here by then.</summary>
    public required DateTimeOffset LateArrival { get; init; }

    /// <summary>Last time to pass so that every clock ahead still holds with the confidence asked for; null when no clock applies.</summary>
    public DateTimeOffset? LatestPass { get; init; }

    /// <summary>Which clock sets the latest pass.</summary>
    public string LatestPassReason { get; init; } = "";

    /// <summary>Last time to turn round here and be back at the start in time, riding the same way; null when no clock applies.</summary>
    public DateTimeOffset? TurnAround { get; init; }

    /// <summary>Light at the typical arrival; null when it could not be computed.</summary>
    public LightPhase? Light { get; init; }

    /// <summary>Air temperature at the typical arrival; null when the forecast does not say.</summary>
    public Temperature? AirTemperature { get; init; }

    /// <summary>Whether the Sun's disc reaches the rider at the typical arrival, cloud not counted; null when no skyline is known here.</summary>
    public bool? InDirectSun { get; init; }

    /// <summary>Last direct sun at this place on the day of arrival, behind the skyline; null when there is none or no skyline is known.</summary>
    public DateTimeOffset? LastSun { get; init; }

    /// <summary>Sunlight taken up per radiating surface of the body at the typical arrival, under the forecast's cloud; null when not computed.</summary>
    public Irradiance? SunAbsorbed { get; init; }

    /// <summary>Predicted rectal temperature at the typical arrival; the range is the model's spread in field studies. Null when not computed.</summary>
    public Estimate<Temperature>? CoreTemperature { get; init; }

    /// <summary>Water in hand on arrival, before any filling.</summary>
    public required Estimate<Volume> WaterInHand { get; init; }

    /// <summary>Energy used since the start at the typical pace.</summary>
    public required Energy EnergyUsed { get; init; }

    /// <summary>Charge of each device at the typical arrival; empty without devices.</summary>
    public IReadOnlyList<DeviceCharge> Charge { get; init; } = [];

    /// <summary>Time on foot to the nearest way out if the bike is dead; null when no way out is known.</summary>
    public TimeSpan? WayOut { get; init; }

    /// <summary>Name of that way out.</summary>
    public string WayOutTo { get; init; } = "";
}
