using UnitsNet;

namespace SoloRide.Routes;

/// <summary>One thing that cleaning changed.</summary>
/// <param name="Kind">What was mended.</param>
/// <param name="PointIndex">Index of the first point concerned in the original.</param>
/// <param name="PointCount">Number of points concerned.</param>
/// <param name="At">Distance of the first along the original.</param>
/// <param name="Reason">What was wrong and what was done.</param>
public sealed record RouteChange(CleanKinds Kind, int PointIndex, int PointCount, Length At, string Reason);
