using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A place on a link of a <see cref="TrailNetwork"/> from where both ends lead out in the same time, or the worst place of the network.</summary>
/// <param name="Link">Index of the link.</param>
/// <param name="A">First node of the link.</param>
/// <param name="B">Second node of the link.</param>
/// <param name="LinkFraction">[0 to 1] Share of the link from <paramref name="A"/>.</param>
/// <param name="FromA">Length from <paramref name="A"/>.</param>
/// <param name="Time">Time to the exit.</param>
/// <param name="ExitViaA">Exit reached over <paramref name="A"/>.</param>
/// <param name="ExitViaB">Exit reached over <paramref name="B"/>.</param>
public sealed record NetworkPoint(int Link, int A, int B, double LinkFraction, Length FromA, TimeSpan Time, string ExitViaA, string ExitViaB);
