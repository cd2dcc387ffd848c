namespace SoloRide.Effort;

/// <summary>Published equations of the metabolic cost of walking.</summary>
public enum WalkingModel
{
    /// <summary>Looney 2019 on grades with the load factor of 2022; what plans use.</summary>
    Looney,

    /// <summary>Pandolf 1977 with load and terrain; level and uphill.</summary>
    Pandolf,

    /// <summary>The same with the downhill correction of Santee 2001; to -12 %.</summary>
    PandolfSantee,

    /// <summary>Minetti 2002, walking at the most economical speed; grades within ±45 %.</summary>
    Minetti,

    /// <summary>Ardigò 2003, walking at a chosen speed; uphill.</summary>
    Ardigo,

    /// <summary>ACSM walking equation; 50 to 100 m/min, level and uphill.</summary>
    Acsm,
}
