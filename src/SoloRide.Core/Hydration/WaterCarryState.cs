namespace SoloRide.Hydration;

/// <summary>Whether the water can be carried within the limits.</summary>
public enum WaterCarryState
{
    /// <summary>A plan keeps the limits.</summary>
    Planned,

    /// <summary>No plan keeps them: a stretch between sources needs more than can be carried, or the sources are too doubtful.</summary>
    Insufficient,
}
