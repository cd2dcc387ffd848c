using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// What a rider alone leaves unused on purpose: a share of the sustained power, and a share of the technical speed. It costs time
/// and gains stopping distance; nothing is claimed about injuries or breakage.
/// </summary>
/// <remarks>Immutable.</remarks>
public sealed record PaceReserve
{
    /// <summary>Nothing left unused.</summary>
    public static PaceReserve None { get; } = new();

    /// <summary>Share of sustained power left unused [share of 1, 0 to 0.6].</summary>
    public double PowerFraction { get; init => field = Guard.InRange(value, 0, 0.6, "(a share of 1)", nameof(PowerFraction)); }

    /// <summary>Share of the technical speed caps left unused [share of 1, 0 to 0.6].</summary>
    public double TechnicalFraction { get; init => field = Guard.InRange(value, 0, 0.6, "(a share of 1)", nameof(TechnicalFraction)); }
}
