namespace SoloRide.Planning;

/// <summary>How fast a rider cools who has to stand still in what is worn, by the time until low strain ends. A rank, not a dose.</summary>
public enum ColdWetClass
{
    /// <summary>Standing can be borne eight hours or longer.</summary>
    Slight,

    /// <summary>Two to eight hours.</summary>
    Raised,

    /// <summary>Half an hour to two hours.</summary>
    High,

    /// <summary>Less than half an hour.</summary>
    Severe,
}
