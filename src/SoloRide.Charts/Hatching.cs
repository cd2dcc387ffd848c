namespace SoloRide.Charts;

/// <summary>Patterns that stay apart without colour.</summary>
internal enum Hatching
{
    /// <summary>Lines rising to the right.</summary>
    Rising,

    /// <summary>Lines falling to the right.</summary>
    Falling,

    /// <summary>Both.</summary>
    Crossed,

    /// <summary>Upright lines.</summary>
    Upright,
}
