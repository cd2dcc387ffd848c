namespace SoloRide;

/// <summary>What can run out.</summary>
public enum ResourceKind
{
    /// <summary>Drinking water, in litres.</summary>
    Water,

    /// <summary>Lamp energy, in hours at the level needed.</summary>
    Light,

    /// <summary>Food energy, in kilocalories.</summary>
    Food,

    /// <summary>Charge of the means of calling and finding the way, in watt-hours.</summary>
    Charge,

    /// <summary>Time until a deadline, in hours.</summary>
    Time,
}
