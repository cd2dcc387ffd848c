using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>What a plan does not hold and some pictures need.</summary>
/// <remarks>Immutable. Everything may stay out; the set then says which picture or part is missing.</remarks>
public sealed record PictureExtras
{
    /// <summary>Heights of the ground, for terrain shade; null: pictures say that it is not shown.</summary>
    public ITerrainHeights? Terrain { get; init; }

    /// <summary>Outcomes of several starts, from <see cref="RidePlanner.SweepStarts"/>.</summary>
    public StartSweep? Starts { get; init; }

    /// <summary>Own rides and the pace learned from them.</summary>
    public RideHistory? Rides { get; init; }
}
