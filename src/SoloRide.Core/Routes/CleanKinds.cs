namespace SoloRide.Routes;

/// <summary>What cleaning mends.</summary>
[Flags]
public enum CleanKinds
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>Points at the same place as the one before.</summary>
    Duplicates = 1,

    /// <summary>Times that go backward.</summary>
    Times = 2,

    /// <summary>Points far off the line of their neighbours.</summary>
    Positions = 4,

    /// <summary>Heights of exactly zero among others, and heights that jump away and back.</summary>
    Heights = 8,

    /// <summary>Wandering of the position while standing.</summary>
    Stops = 16,

    /// <summary>All of these.</summary>
    All = Duplicates | Times | Positions | Heights | Stops,
}
