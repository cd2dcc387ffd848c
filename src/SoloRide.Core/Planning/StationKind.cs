namespace SoloRide.Planning;

/// <summary>What a station of the plan is.</summary>
public enum StationKind
{
    /// <summary>Start of the ride.</summary>
    Start,

    /// <summary>A named place of the route file.</summary>
    Place,

    /// <summary>A source of water.</summary>
    Water,

    /// <summary>A way out.</summary>
    Exit,

    /// <summary>Farthest or turning point.</summary>
    Turn,

    /// <summary>Highest point.</summary>
    Top,

    /// <summary>A camp.</summary>
    Camp,

    /// <summary>A mark set so that no stretch goes without one.</summary>
    Mark,

    /// <summary>End of the ride.</summary>
    Finish,
}
