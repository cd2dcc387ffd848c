using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Time standing still, counted apart from moving time: photographs, food, navigation, gates.</summary>
/// <remarks>No published figure was found: assumptions until own rides replace them. Immutable.</remarks>
[Source("assumption-stops", "defaults of this type")]
public sealed record StopHabit
{
    /// <summary>Minutes standing for each hour in motion [min/h, 0 to 60].</summary>
    public double MinutesPerHour { get; init => field = Guard.InRange(value, 0, 60, "min/h", nameof(MinutesPerHour)); } = 6;

    /// <summary>Spread between rides as a geometric standard deviation [factor, 1 to 4].</summary>
    public double GsdFactor { get; init => field = Guard.InRange(value, 1, 4, "(factor)", nameof(GsdFactor)); } = 1.6;
}
