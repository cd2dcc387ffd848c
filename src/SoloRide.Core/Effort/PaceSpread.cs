using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// How far moving time scatters about its typical value, in three parts that are kept apart: shared by the whole ride (form, weather,
/// trail condition), shared by a surface, and each step's own. Geometric standard deviations: one standard deviation multiplies or
/// divides the time by the factor.
/// </summary>
/// <remarks>Assumptions until own rides replace them. Immutable.</remarks>
[Source("assumption-pace-spread", "defaults of this type")]
public sealed record PaceSpread
{
    /// <summary>Shared by the whole ride, besides the spread of the sustained power [factor, 1 to 3].</summary>
    public double RideGsdFactor { get; init => field = Guard.InRange(value, 1, 3, "(factor)", nameof(RideGsdFactor)); } = 1.14;

    /// <summary>Shared by one surface over the whole ride [factor, 1 to 3].</summary>
    public double SurfaceGsdFactor { get; init => field = Guard.InRange(value, 1, 3, "(factor)", nameof(SurfaceGsdFactor)); } = 1.10;

    /// <summary>Of each 100 m by itself [factor, 1 to 3]; longer steps scatter less, by the square root of their length.</summary>
    public double HundredMetreGsdFactor { get; init => field = Guard.InRange(value, 1, 3, "(factor)", nameof(HundredMetreGsdFactor)); } = 1.30;

    /// <summary>Of descending speed between riders, the same over all difficulties, besides the spread of each <see cref="TechnicalCap"/> [factor, 1 to 3].</summary>
    public double DescentGsdFactor { get; init => field = Guard.InRange(value, 1, 3, "(factor)", nameof(DescentGsdFactor)); } = 1.15;

    /// <summary>Of walking pace, shared by the whole walk [factor, 1 to 3].</summary>
    public double FootGsdFactor { get; init => field = Guard.InRange(value, 1, 3, "(factor)", nameof(FootGsdFactor)); } = 1.22;
}
