using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>How lines of trail are joined to a network.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RouteNetworkOptions
{
    private readonly double _toleranceM = DefaultToleranceM;

    [Source("assumption-routes-snap", "ends within 5 m of a line meet it")]
    internal const double DefaultToleranceM = 5;

    internal static RouteNetworkOptions Default { get; } = new();

    /// <summary>How far the end of a line may be from another line to meet it; 0.1 to 100 m, 5 m unless stated.</summary>
    public Length Tolerance
    {
        get => Length.FromMeters(_toleranceM);
        init => _toleranceM = Guard.InRange(value.Meters, 0.1, 100, "m", nameof(Tolerance));
    }

    /// <summary>Where lines that cross meet.</summary>
    public CrossingRule Crossings { get; init => field = Guard.Defined(value, nameof(Crossings)); }

    internal double ToleranceM => _toleranceM;
}
