namespace SoloRide;

/// <summary>What is at a way out.</summary>
public enum ExitKind
{
    /// <summary>A trailhead with a vehicle or the start.</summary>
    Trailhead,

    /// <summary>A road where vehicles pass.</summary>
    Road,

    /// <summary>An inhabited house.</summary>
    House,

    /// <summary>A staffed hut.</summary>
    Hut,

    /// <summary>A village or shop.</summary>
    Settlement,
}
