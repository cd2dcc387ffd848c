using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>The best way through chosen points on a network, or why there is none.</summary>
/// <remarks>A way on a map proves neither access nor that the trail is open or rideable. Immutable.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed class RouteWay
{
    private readonly double _costS;

    internal RouteWay(RideRoute? route, IReadOnlyList<WayPart> parts, double costS, IReadOnlyList<WayRefusal> refusals, Length? detour, IReadOnlyList<Finding> findings)
    {
        Route = route;
        Parts = parts;
        _costS = costS;
        Refusals = refusals;
        Detour = detour;
        Findings = findings;
        if (route is not null && parts.All(p => p.Trail.HasHeights))
        {
            (double up, double down) = (0, 0);
            foreach (WayPart p in parts)
            {
                (double u, double d) = p.Climbing();
                up += u;
                down += d;
            }

            (Ascent, Descent) = (UnitsNet.Length.FromMeters(up), UnitsNet.Length.FromMeters(down));
        }
    }

    /// <summary>Whether there is a way.</summary>
    public bool IsFound => Route is not null;

    /// <summary>The way as a route; null when there is none.</summary>
    public RideRoute? Route { get; }

    /// <summary>Its length; null when there is none.</summary>
    public Length? Length => Route?.Length;

    /// <summary>Sum of rises of the trails used; null without a way or without heights. Parts add up.</summary>
    public Length? Ascent { get; }

    /// <summary>Sum of falls of the trails used, positive; null without a way or without heights.</summary>
    public Length? Descent { get; }

    /// <summary>Its cost by the function of <see cref="RouteNetwork.WithCost"/>; null without a function or a way.</summary>
    public TimeSpan? Cost => double.IsFinite(_costS) ? TimeSpan.FromSeconds(_costS) : null;

    /// <summary>The trails used, in the order of travel; a trail used twice stands twice.</summary>
    public IReadOnlyList<NetworkTrail> Trails => [.. Parts.Select(p => p.Trail)];

    /// <summary>What is barred on the better way that was refused, or on the way that would need the least opened when there is none.</summary>
    public IReadOnlyList<WayRefusal> Refusals { get; }

    /// <summary>How much longer the way is than the one that was refused; null when nothing was refused or there is no way.</summary>
    public Length? Detour { get; }

    /// <summary>What a reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Length, ascent and trails of the way, or that there is none; findings.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        string head = "No way.";
        if (Route is { } route)
        {
            string up = Ascent is { } a && Descent is { } d ? $", ascent {Text.F(a.Meters, 0)} m, descent {Text.F(d.Meters, 0)} m" : ", ascent unknown";
            string cost = Cost is { } c ? $", {Text.Span(c)}" : "";
            string by = string.Join(", ", Trails.Select(t => t.Called).Distinct());
            head = $"{Text.F(route.LengthM / 1000, 2)} km{up}{cost}{(by.Length > 0 ? ": " + by : "")}.";
        }

        return Render.Lines(head, Findings, []);
    }

    internal IReadOnlyList<WayPart> Parts { get; }

    internal double CostS => _costS;
}
