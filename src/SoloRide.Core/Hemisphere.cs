namespace SoloRide;

/// <summary>Half of the earth; the equator counts as north.</summary>
public enum Hemisphere
{
    /// <summary>Latitude 0 and above.</summary>
    North,

    /// <summary>Below latitude 0.</summary>
    South,
}
