using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>What the rider knows of one check: when it was last done, how far was ridden since, a measured wear, and the maker's limits.</summary>
/// <remarks>Immutable. The limits are the maker's, read from the sheet of the part; none are shipped.</remarks>
public sealed record ServiceRecord
{
    private readonly double _riddenM = double.NaN;
    private readonly double _mostM = double.NaN;

    /// <summary>Makes a record.</summary>
    /// <param name="checkId">Id of the check, such as <c>tyres.sealant</c>.</param>
    /// <exception cref="ArgumentException">The id is empty.</exception>
    public ServiceRecord(string checkId)
    {
        CheckId = Guard.NotEmpty(checkId);
    }

    /// <summary>Id of the check.</summary>
    public string CheckId { get; }

    /// <summary>Day of the last service.</summary>
    public DateOnly? DoneOn { get; init; }

    /// <summary>Days that the maker allows between services; 1 to 3 650.</summary>
    public int? MostDays { get; init => field = value is { } v ? Guard.InRange(v, 1, 3650, "days", nameof(MostDays)) : null; }

    /// <summary>Distance ridden since; 0 km or more.</summary>
    public Length? RiddenSince
    {
        get => Si.Length(_riddenM);
        init => _riddenM = value is { } v ? Guard.NotNegative(v.Meters, "m", nameof(RiddenSince)) : double.NaN;
    }

    /// <summary>Distance that the maker allows between services; above 0 km.</summary>
    public Length? MostRidden
    {
        get => Si.Length(_mostM);
        init => _mostM = value is { } v ? Guard.Positive(v.Meters, "m", nameof(MostRidden)) : double.NaN;
    }

    /// <summary>Measured wear in the unit of the maker's limit, as a share of that limit; 0 is new, 1 the limit. 0 to 10.</summary>
    public double? WearFactor { get; init => field = value is { } v ? Guard.InRange(v, 0, 10, "(share of the limit)", nameof(WearFactor)) : null; }

    /// <summary>Whether a fault was found at this inspection.</summary>
    public Known Fault { get; init => field = Guard.Defined(value, nameof(Fault)); }

    internal double RiddenM => _riddenM;

    internal double MostM => _mostM;
}
