using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>How a way is looked for on a <see cref="RouteNetwork"/>.</summary>
/// <remarks>Immutable.</remarks>
public sealed record WayOptions
{
    private readonly double _withinM = DefaultWithinM;

    [Source("assumption-routes-attach", "a place within 100 m of a trail lies on it")]
    internal const double DefaultWithinM = 100;

    internal static WayOptions Default { get; } = new();

    /// <summary>Day of the ride: closures that are stated to end by then do not hold; null when it is not known, and every closure holds.</summary>
    public DateOnly? Day { get; init; }

    /// <summary>Bars that are set aside, because the rider knows better or walks; each one met is a finding. None unless stated.</summary>
    public TrailBars Allow { get; init => field = (value & ~(TrailBars.Closed | TrailBars.OneWay | TrailBars.NoBicycles)) == 0 ? value
        : throw new ArgumentOutOfRangeException(nameof(Allow), value, "Allow is no combination of Closed, OneWay, NoBicycles."); }

    /// <summary>How far a chosen point may lie from the nearest trail; 1 m to 10 km, 100 m unless stated.</summary>
    public Length WithinOfTrail
    {
        get => Length.FromMeters(_withinM);
        init => _withinM = Guard.InRange(value.Meters, 1, 10_000, "m", nameof(WithinOfTrail));
    }

    internal double WithinM => _withinM;
}
