using UnitsNet;

namespace SoloRide.Planning;

/// <summary>The walk out when the one way out whose loss costs most cannot be used.</summary>
/// <param name="Barred">The way out taken as barred.</param>
/// <param name="WorstAt">The worst point then; null when no other way out is known.</param>
/// <param name="WalkOut">Time from there on foot, pushing the bike, P10 to P90; null when no other way out is known.</param>
/// <param name="ExitName">The way out from there; null when no other is known.</param>
public sealed record BarredWayOut(string Barred, Length? WorstAt, Estimate<TimeSpan>? WalkOut, string? ExitName);
