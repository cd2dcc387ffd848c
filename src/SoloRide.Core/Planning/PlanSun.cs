namespace SoloRide.Planning;

/// <summary>Direct sun and the shade of terrain along the typical run. Shade tells warmth and ice, not twilight.</summary>
public sealed record PlanSun
{
    /// <summary>Time in direct sun, cloud not counted.</summary>
    public required TimeSpan DirectSun { get; init; }

    /// <summary>Time with the Sun above a free horizon and behind the skyline.</summary>
    public required TimeSpan TerrainShade { get; init; }

    /// <summary>Time where no skyline is known.</summary>
    public required TimeSpan SkylineUnknown { get; init; }

    /// <summary>Last direct sun of the day on the rider: when the rider leaves it, or, for a ride that ends in the sun, when it leaves the finish; null when there is none.</summary>
    public DateTimeOffset? LastSun { get; init; }

    /// <summary>Whether the typical run ends in direct sun.</summary>
    public bool SunToTheEnd { get; init; }
}
