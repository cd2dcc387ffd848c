using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>How exits beside the route are joined to it.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ExitGraphOptions
{
    private readonly double _onRouteM = DefaultOnRouteM;

    [Source("assumption-escape-graph", "an exit this near lies on the route")]
    private const double DefaultOnRouteM = 50;

    [Source("assumption-escape-graph", "length of a way over unknown ground against the straight line")]
    private const double DefaultDetour = 1.5;

    /// <summary>An exit given by place lies on the route when it is not farther away than this.</summary>
    public Length OnRouteTolerance
    {
        get => Length.FromMeters(_onRouteM);
        init => _onRouteM = Guard.NotNegative(value.Meters, "m", nameof(OnRouteTolerance));
    }

    /// <summary>[1, 1 to 10] Length of a way over unknown ground against the straight line; used, and flagged, only where no trail leads to an exit.</summary>
    public double DetourFactor { get; init => field = Guard.InRange(value, 1, 10, "times", nameof(DetourFactor)); } = DefaultDetour;

    /// <summary>Whether straight lines are used at all where no trail leads to an exit.</summary>
    public StraightLineFallback Fallback { get; init => field = Guard.Defined(value, nameof(Fallback)); } = StraightLineFallback.FromNearestPoint;
}
