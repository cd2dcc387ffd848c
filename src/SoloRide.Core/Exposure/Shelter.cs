namespace SoloRide.Exposure;

/// <summary>What stands between a waiting rider and the wind.</summary>
public enum Shelter
{
    /// <summary>Nothing: the wind at the place.</summary>
    Open,

    /// <summary>A lee: rock, trees, a dug-in place.</summary>
    Lee,

    /// <summary>A closed bag or sheet around the body: stops wind and keeps vapour in. Counted as still air and a windproof layer, not as insulation.</summary>
    ClosedBag,
}
