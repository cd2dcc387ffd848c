namespace SoloRide.Exposure;

/// <summary>Work as the army table sorts it.</summary>
public enum WorkIntensity
{
    /// <summary>Easy: about 250 W metabolic rate; rolling, walking on the level.</summary>
    Easy,

    /// <summary>Moderate: about 425 W; steady riding on easy ground, pushing.</summary>
    Moderate,

    /// <summary>Hard: about 600 W and more; climbing, carrying the bike.</summary>
    Hard,
}
