using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A place where a night can be spent.</summary>
/// <remarks>Immutable. Permission and fire rules are local: what is not known is printed as not checked.</remarks>
public sealed record Camp
{
    private readonly double _alongM;
    private readonly double _lowC = double.NaN;

    /// <summary>Name.</summary>
    public required string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); }

    /// <summary>Distance along the route.</summary>
    public required Length AlongRoute
    {
        get => Length.FromMeters(_alongM);
        init => _alongM = Guard.NotNegative(value.Meters, "m", nameof(AlongRoute));
    }

    /// <summary>Whether there is water.</summary>
    public Known Water { get; init; }

    /// <summary>Whether camping is allowed.</summary>
    public Known Allowed { get; init; }

    /// <summary>Whether food can be had there, so that less is carried before it.</summary>
    public Known Food { get; init; }

    /// <summary>Whether devices can be charged there from the mains.</summary>
    public Known Mains { get; init; }

    /// <summary>Forecast low of the night there; null when not known.</summary>
    public Temperature? NightLow
    {
        get => Si.Temperature(_lowC);
        init => _lowC = value is { } v ? Guard.InRange(v.DegreesCelsius, -60, 50, "deg C", nameof(NightLow)) : double.NaN;
    }
}
