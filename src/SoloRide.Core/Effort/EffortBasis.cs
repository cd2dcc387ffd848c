namespace SoloRide.Effort;

/// <summary>What the sustained effort of a rider was taken from.</summary>
public enum EffortBasis
{
    /// <summary>Learned from the rider's own timed legs.</summary>
    OwnRides,

    /// <summary>Power at the pedals as stated.</summary>
    StatedPower,

    /// <summary>A steady climbing rate.</summary>
    ClimbingRate,

    /// <summary>One timed ride.</summary>
    TimedRide,

    /// <summary>Maximal oxygen uptake as stated, times a share held for hours.</summary>
    OxygenUptake,

    /// <summary>A prior by age, sex, mass and habit: wide.</summary>
    Prior,
}
