using UnitsNet;

namespace SoloRide.Escape;

/// <summary>What one clock says about turning back after a given start.</summary>
/// <param name="Name">The clock.</param>
/// <param name="Farthest">The farthest place from where the way back still meets it.</param>
/// <param name="At">When that place is reached: turn back then at the latest.</param>
public sealed record TurnAroundClock(string Name, Length Farthest, DateTimeOffset At);
