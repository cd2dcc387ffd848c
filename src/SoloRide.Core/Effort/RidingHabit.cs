namespace SoloRide.Effort;

/// <summary>How much a rider rides, for the prior of a rider who knows no figures.</summary>
public enum RidingHabit
{
    /// <summary>A few times a month or less.</summary>
    Seldom,

    /// <summary>Once or twice a week.</summary>
    Regular,

    /// <summary>Most days, with long rides.</summary>
    Frequent,
}
