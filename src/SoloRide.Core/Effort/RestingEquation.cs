namespace SoloRide.Effort;

/// <summary>Published equations of resting energy.</summary>
public enum RestingEquation
{
    /// <summary>Mifflin and St Jeor 1990: mass, height, age, sex.</summary>
    MifflinStJeor,

    /// <summary>Schofield 1985 by mass, in age bands.</summary>
    SchofieldMass,

    /// <summary>Schofield 1985 by mass and height, in age bands.</summary>
    SchofieldHeight,

    /// <summary>FAO/WHO/UNU 1985 by mass, in age bands.</summary>
    FaoWho,

    /// <summary>Harris and Benedict 1919, full coefficients.</summary>
    HarrisBenedict,
}
