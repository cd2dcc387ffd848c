namespace SoloRide.Effort;

/// <summary>Published rules of time on foot, each by its variant.</summary>
public enum HikingRule
{
    /// <summary>Naismith: 5 km/h and 600 m/h of ascent added.</summary>
    Naismith,

    /// <summary>Naismith: each metre of ascent as 8 m on the level, 5 km/h.</summary>
    NaismithEightToOne,

    /// <summary>Naismith with Langmuir's descents: 10 min off for 300 m at 5 to 12°, 10 min on above 12°.</summary>
    Langmuir,

    /// <summary>Tobler's hiking function on a path.</summary>
    ToblerPath,

    /// <summary>Tobler's hiking function off path.</summary>
    ToblerOffPath,

    /// <summary>Márquez-Pérez's refit of the hiking function.</summary>
    MarquezPerez,

    /// <summary>Irmischer and Clarke on path.</summary>
    IrmischerClarkePath,

    /// <summary>Irmischer and Clarke off path.</summary>
    IrmischerClarkeOffPath,

    /// <summary>Rees.</summary>
    Rees,

    /// <summary>Davey: a run rather than a walk on the level.</summary>
    Davey,

    /// <summary>Campbell 2019, fifth percentile: slow walkers.</summary>
    CampbellFifth,

    /// <summary>Campbell 2019, tenth percentile: walkers.</summary>
    CampbellTenth,

    /// <summary>Campbell 2019, twenty-fifth percentile: brisk, some jogging.</summary>
    CampbellTwentyFifth,

    /// <summary>DIN 33466.</summary>
    Din33466,

    /// <summary>The Swiss signpost formula.</summary>
    SwissSignpost,

    /// <summary>Munter, rate 4 uphill and 6 on the level and downhill.</summary>
    Munter,
}
