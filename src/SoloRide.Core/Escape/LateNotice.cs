using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A wrong turn noticed after some time.</summary>
/// <param name="After">When it is noticed.</param>
/// <param name="Distance">How far along the wrong trail the rider is then.</param>
/// <param name="ExtraTime">Time lost until back at the junction; null when the trail cannot be gone back.</param>
/// <param name="WalkOut">Time out from there after trouble; null when there is no way out.</param>
/// <param name="TrailEnds">Whether the known part of the trail ends before that time; the cost is that of its end.</param>
public sealed record LateNotice(TimeSpan After, Length Distance, TimeSpan? ExtraTime, TimeSpan? WalkOut, bool TrailEnds);
