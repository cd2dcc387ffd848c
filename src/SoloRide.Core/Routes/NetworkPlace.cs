namespace SoloRide.Routes;

/// <summary>A place put onto a trail.</summary>
internal readonly record struct NetworkPlace(NetworkTrail Trail, double AlongM, double OffsetM);
