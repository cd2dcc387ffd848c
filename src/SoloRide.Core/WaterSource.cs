using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A spring, stream, tank or tap on the way, with the chance that it holds water.</summary>
/// <remarks>Map symbols for permanence are inconsistent; give a report and its date where there is one. Immutable.</remarks>
public sealed record WaterSource
{
    private readonly double _alongM = double.NaN;
    private readonly double _amountL = double.NaN;

    /// <summary>Name.</summary>
    public required string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); }

    /// <summary>Where it is; null when only the distance along the route is given.</summary>
    public GeoPoint? Place { get; init; }

    /// <summary>Distance along the route where one leaves it for the water.</summary>
    public Length? AlongRoute
    {
        get => Si.Length(_alongM);
        init => _alongM = value is { } v ? Guard.NotNegative(v.Meters, "m", nameof(AlongRoute)) : double.NaN;
    }

    /// <summary>Chance that it holds water on the day [share of 1]; null when nobody knows: planned as dry.</summary>
    public double? WetProbability { get; init => field = value is { } v ? Guard.Fraction(v, nameof(WetProbability)) : null; }

    /// <summary>Day of the last report, if any.</summary>
    public DateOnly? LastReport { get; init; }

    /// <summary>Whether the water must be treated before drinking.</summary>
    public bool NeedsTreatment { get; init; } = true;

    /// <summary>Most water that can be had there, such as in a cache; 0 to 1 000 L. Null: as much as one can carry.</summary>
    public Volume? Amount
    {
        get => Si.Volume(_amountL);
        init => _amountL = value is { } v ? Guard.InRange(v.Liters, 0, 1000, "L", nameof(Amount)) : double.NaN;
    }

    /// <summary>Name of the source that this is one pass of: all its passes are wet or dry alike. Null: passed once.</summary>
    internal string? PassOf { get; init; }
}
