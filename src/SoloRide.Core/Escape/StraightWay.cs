using UnitsNet;

namespace SoloRide.Escape;

/// <summary>How far and which way something lies, in a straight line.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Distance">How far.</param>
/// <param name="BearingDeg">[°, 0 to 360] Direction from true north, clockwise; NaN when the distance is zero.</param>
public sealed record StraightWay(string Name, Length Distance, double BearingDeg);
