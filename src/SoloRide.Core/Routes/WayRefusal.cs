using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A stretch that was refused, by name, and what would open it.</summary>
/// <param name="Trail">Name of the trail, or where it begins when it has none.</param>
/// <param name="Bars">What bars the way.</param>
/// <param name="Place">Where the barred stretch begins in the direction of travel.</param>
/// <param name="Length">Length of the barred stretch.</param>
/// <param name="OpenedBy">What would open it, in words.</param>
/// <param name="Closure">The closure, when it is closed.</param>
public sealed record WayRefusal(string Trail, TrailBars Bars, GeoPoint Place, Length Length, string OpenedBy, TrailClosure? Closure);
