using UnitsNet;

namespace SoloRide.Routes;

/// <summary>How much of a route lies within a range of grades.</summary>
/// <param name="From">Lowest grade of the range; the first range is open downward.</param>
/// <param name="To">Upper end of the range, not contained; the last range is open upward.</param>
/// <param name="Distance">Length of trail within the range.</param>
public sealed record GradeShare(Grade From, Grade To, Length Distance);
