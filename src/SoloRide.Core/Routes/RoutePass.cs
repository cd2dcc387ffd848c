using UnitsNet;

namespace SoloRide.Routes;

/// <summary>One time that a route goes past a place.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RoutePass
{
    internal RoutePass(double alongM, double offsetM, int pointIndex, GeoPoint place)
        => (AlongM, OffsetM, PointIndex, Place) = (alongM, offsetM, pointIndex, place);

    /// <summary>Distance from the start of the route.</summary>
    public Length DistanceAlong => Length.FromMeters(AlongM);

    /// <summary>Distance from the place to the route there, over the ellipsoid.</summary>
    public Length Offset => Length.FromMeters(OffsetM);

    /// <summary>Index of the point at or before the pass.</summary>
    public int PointIndex { get; }

    /// <summary>The nearest place on the route.</summary>
    public GeoPoint Place { get; }

    internal double AlongM { get; }

    internal double OffsetM { get; }
}
