namespace SoloRide.Routes;

/// <summary>A step on a trail of a network in the direction of travel: what a cost function is asked about.</summary>
/// <param name="Trail">The trail.</param>
/// <param name="Backward">Whether it is travelled against its line.</param>
/// <param name="Step">Length, rise, surface and difficulty in the direction of travel; level where heights are unknown.</param>
/// <remarks><c>default</c> has no trail and is never asked about. Immutable.</remarks>
public readonly record struct TrailPassage(NetworkTrail Trail, bool Backward, TrailStep Step);
