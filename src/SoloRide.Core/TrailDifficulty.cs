namespace SoloRide;

/// <summary>Technical difficulty for riding, as the numbers of the open <c>mtb:scale</c> tag.</summary>
public enum TrailDifficulty
{
    /// <summary>Not stated.</summary>
    Unknown = -1,

    /// <summary>0: gravel or packed earth, no particular obstacles.</summary>
    Level0 = 0,

    /// <summary>1: small obstacles, loose ground, slopes below about 40 %.</summary>
    Level1 = 1,

    /// <summary>2: larger rocks or roots, steps, slopes below about 70 %.</summary>
    Level2 = 2,

    /// <summary>3: many obstacles, tight bends, steps.</summary>
    Level3 = 3,

    /// <summary>4: very steep and blocked by large rocks or roots.</summary>
    Level4 = 4,

    /// <summary>5: extremely steep with tight bends; few people can ride it.</summary>
    Level5 = 5,

    /// <summary>6: not ridable for nearly everyone.</summary>
    Level6 = 6,
}
