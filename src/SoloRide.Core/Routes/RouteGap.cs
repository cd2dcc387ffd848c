using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A place where the line of a file is interrupted. The route goes straight across; nobody knows how the trail goes there.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RouteGap
{
    internal RouteGap(double atM, double lengthM, int pointIndex) => (AtM, LengthM, PointIndex) = (atM, lengthM, pointIndex);

    /// <summary>Where it begins, from the start of the route.</summary>
    public Length At => Length.FromMeters(AtM);

    /// <summary>Straight length of the gap; contained in the length of the route.</summary>
    public Length Length => Length.FromMeters(LengthM);

    /// <summary>Index of the last point before the gap.</summary>
    public int PointIndex { get; }

    internal double AtM { get; }

    internal double LengthM { get; }
}
