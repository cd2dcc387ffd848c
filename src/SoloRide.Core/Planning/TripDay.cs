using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One day of a trip: its plan, and what the days before leave it with.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TripDay
{
    /// <summary>Number of the day, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>From where to where, and the camp at its end.</summary>
    public required Stage Stage { get; init; }

    /// <summary>The plan of the day; distances count from its own start.</summary>
    public required RidePlan Plan { get; init; }

    /// <summary>Daylight, from civil dawn to civil dusk at the day's start; null when the sun does neither.</summary>
    public TimeSpan? Daylight { get; init; }

    /// <summary>Carried at the start of the day in all: load, food of this and the following days, water.</summary>
    public required Mass Carried { get; init; }

    /// <summary>Food carried at the start of the day, up to the next place that has food.</summary>
    public required Mass FoodCarried { get; init; }

    /// <summary>Food of the day, on the way and at the camp.</summary>
    public required Energy Food { get; init; }

    /// <summary>Water in hand at the start of the day.</summary>
    public required Volume WaterAtStart { get; init; }

    /// <summary>Water to arrive with at the camp, for the night and the way to the next source; null when the camp has water, or there is none.</summary>
    public Volume? BringToCamp { get; init; }

    /// <summary>Charge of the devices at the start of the day, the bank last.</summary>
    public required IReadOnlyList<DeviceCharge> ChargeAtStart { get; init; }

    /// <summary>The night after a late arrival at the plan's confidence, until the next start; null after the last day.</summary>
    public TimeSpan? Rest { get; init; }

    /// <summary>How much later than asked for the day starts, so that the night after a late day before is long enough; zero when the clock holds.</summary>
    public TimeSpan StartMoved { get; init; }

    /// <summary>Low of the night at the camp: as given, else from the forecast; null when not known.</summary>
    public Temperature? NightLow { get; init; }

    /// <summary>Whether the night is colder than bag and clothing are good for.</summary>
    public bool TooCold { get; init; }
}
