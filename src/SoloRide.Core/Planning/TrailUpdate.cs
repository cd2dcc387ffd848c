using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A plan made anew on the trail, and what changed.</summary>
/// <param name="Plan">The plan of what is left; its distances count from the rider's place.</param>
/// <param name="PaceFactor">Today's moving time over the planned one, with its range; above 1 is slower.</param>
/// <param name="News">What changed, most pressing first.</param>
/// <param name="Message">A short message for home, in the 7-bit alphabet, at most 160 characters.</param>
public sealed record TrailUpdate(RidePlan Plan, Estimate<Ratio> PaceFactor, IReadOnlyList<string> News, string Message);
