using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A place where being alone ends: road, house, staffed hut, trailhead.</summary>
/// <remarks>
/// Given by place, or by distance along the route when it lies on it. With a place off the route and no trail network,
/// the way to it is a straight line times a named detour factor, and the result says so. Immutable.
/// </remarks>
public sealed record ExitPoint
{
    private readonly double _alongM = double.NaN;

    /// <summary>Name as the rider and the contact know it.</summary>
    public required string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); }

    /// <summary>Where it is; null when only the distance along the route is given.</summary>
    public GeoPoint? Place { get; init; }

    /// <summary>Distance along the route, when it lies on it.</summary>
    public Length? AlongRoute
    {
        get => Si.Length(_alongM);
        init => _alongM = value is { } v ? Guard.NotNegative(v.Meters, "m", nameof(AlongRoute)) : double.NaN;
    }

    /// <summary>What is there.</summary>
    public ExitKind Kind { get; init; } = ExitKind.Road;

    /// <summary>Whether a telephone works there.</summary>
    public Known Phone { get; init; }

    /// <summary>Whether a vehicle can come there.</summary>
    public Known PickUp { get; init; }
}
