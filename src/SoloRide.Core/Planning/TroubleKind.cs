namespace SoloRide.Planning;

/// <summary>What has happened to a lone rider.</summary>
public enum TroubleKind
{
    /// <summary>The bike is dead, the rider is sound.</summary>
    BikeDead,

    /// <summary>The rider is hurt and can walk.</summary>
    Injured,

    /// <summary>The rider cannot walk.</summary>
    CannotMove,
}
