namespace SoloRide;

/// <summary>What is under the tyre or the shoe. Classes follow the open <c>surface</c> tag set, condensed.</summary>
public enum TrailSurface
{
    /// <summary>Not stated; treated as a mix of firm and loose trail.</summary>
    Unknown,

    /// <summary>Asphalt or concrete.</summary>
    Paved,

    /// <summary>Graded gravel road, compacted.</summary>
    Gravel,

    /// <summary>Firm earth, hard-packed trail.</summary>
    Firm,

    /// <summary>Grass or forest floor.</summary>
    Grass,

    /// <summary>Loose stones, scree, coarse gravel.</summary>
    Loose,

    /// <summary>Rock slabs, boulders, steps.</summary>
    Rock,

    /// <summary>Roots.</summary>
    Roots,

    /// <summary>Sand.</summary>
    Sand,

    /// <summary>Mud or bog.</summary>
    Mud,

    /// <summary>Snow or ice.</summary>
    Snow,
}
