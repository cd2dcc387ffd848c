namespace SoloRide.Planning;

/// <summary>What a margin is about.</summary>
public enum MarginKind
{
    /// <summary>Civil dusk against the finish.</summary>
    Daylight,

    /// <summary>Lamp energy against the dark hours.</summary>
    LampLight,

    /// <summary>Water in hand.</summary>
    Water,

    /// <summary>Food in hand.</summary>
    Food,

    /// <summary>Charge of the means of calling and finding the way.</summary>
    Charge,

    /// <summary>Heat against work.</summary>
    Heat,

    /// <summary>Cold and wet against clothing.</summary>
    Cold,

    /// <summary>Storm onset against exposed ground.</summary>
    Storm,

    /// <summary>A gate, ford, ferry or other clock given by the caller.</summary>
    Clock,

    /// <summary>Time that waiting for help can be borne against the time help takes.</summary>
    Wait,
}
