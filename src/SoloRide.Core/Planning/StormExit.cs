using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A way off a ridge with the last time to enter the ridge that still leaves time for it.</summary>
/// <param name="Name">Name.</param>
/// <param name="LeavesAt">Where it leaves the ridge.</param>
/// <param name="FromEntry">Time from entering the ridge to lower ground: P10 to P90; the parts' ranges are added, on the safe side.</param>
/// <param name="LatestEntry">Early onset less the high end of that time.</param>
public sealed record StormExit(string Name, Length LeavesAt, Estimate<TimeSpan> FromEntry, DateTimeOffset LatestEntry);
