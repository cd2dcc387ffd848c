namespace SoloRide.Effort;

/// <summary>Editions of the compendium of physical activities; codes change their value between them.</summary>
public enum CompendiumEdition
{
    /// <summary>2011.</summary>
    Edition2011,

    /// <summary>2024, a partial extract.</summary>
    Edition2024,
}
