using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>How exits beside the route are joined to it, and the route to itself.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ExitGraphOptions
{
    private readonly double _onRouteM = DefaultOnRouteM;

    [Source("assumption-escape-graph", "an exit this near lies on the route")]
    private const double DefaultOnRouteM = 50;

    [Source("assumption-escape-graph", "length of a way over unknown ground against the straight line")]
    private const double DefaultDetour = 1.5;

    private readonly double _crossingM = DefaultCrossingM;
    private readonly double _crossingHeightM = DefaultCrossingHeightM;

    [Source("assumption-escape-graph", "parts of the route this near are the same place, when their heights agree")]
    private const double DefaultCrossingM = 5;

    [Source("assumption-escape-graph", "heights of two passes of one place differ by no more than this")]
    private const double DefaultCrossingHeightM = 8;

    /// <summary>A crossing this near to a bridge that was named is the bridge.</summary>
    [Source("assumption-escape-graph", "a bridge is found within 50 m of the distance given")]
    internal const double BridgeM = 50;

    /// <summary>Loops shorter than this are not cut short.</summary>
    [Source("assumption-escape-graph", "loops of less than 50 m, such as the turn of a switchback, are left alone")]
    internal const double LeastLoopM = 50;

    /// <summary>What is done where the route meets itself: joined as if on the ground unless said otherwise. Needs the places of the route.</summary>
    public RouteCrossings Crossings { get; init => field = Guard.Defined(value, nameof(Crossings)); } = RouteCrossings.JoinAtGrade;

    /// <summary>Parts of the route meet when they come this near; 0 to 50 m, 5 m unless stated. A larger one may cut switchbacks short.</summary>
    public Length CrossingTolerance
    {
        get => Length.FromMeters(_crossingM);
        init => _crossingM = Guard.InRange(value.Meters, 0, 50, "m", nameof(CrossingTolerance));
    }

    /// <summary>Parts whose heights differ by more are taken for a bridge; 0 to 100 m, 8 m unless stated. Unknown heights count as equal.</summary>
    public Length CrossingHeightTolerance
    {
        get => Length.FromMeters(_crossingHeightM);
        init => _crossingHeightM = Guard.InRange(value.Meters, 0, 100, "m", nameof(CrossingHeightTolerance));
    }

    /// <summary>Distances along the route of bridges and tunnels by which it passes over or under itself, to within 50 m: nothing is joined there.</summary>
    public IReadOnlyList<Length> Bridges { get; init => field = [.. Guard.NotNull(value, nameof(Bridges))]; } = [];

    internal double CrossingM => _crossingM;

    internal double CrossingHeightM => _crossingHeightM;

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
