namespace SoloRide.Planning;

/// <summary>Whether personal and medical data go into a document.</summary>
public enum PersonalData
{
    /// <summary>Left out: body, fitness, sweat, pace learned from rides, and when a recorded line was ridden.</summary>
    LeftOut,

    /// <summary>Included, because the caller asked for it.</summary>
    Included,
}
