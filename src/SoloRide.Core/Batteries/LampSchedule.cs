using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Which mode of a lamp to use in which section.</summary>
/// <param name="IsFeasible">Whether the energy covers the light needed everywhere.</param>
/// <param name="Modes">One for each section: the most light that the energy allows, none below its need; empty when infeasible.</param>
/// <param name="Uses">Energy of <paramref name="Modes"/>.</param>
/// <param name="LeastModes">One for each section: the least power that gives the light needed; null where no mode does.</param>
/// <param name="Least">Energy of <paramref name="LeastModes"/>; null where some section has none.</param>
/// <param name="Missing">Energy missing for the least schedule; 0 when feasible, null where some section has no mode.</param>
/// <param name="GapFraction">How far the best schedule could at most lie above this one [share of its worth]; 0 is the proof that none is better.</param>
public sealed record LampSchedule(
    bool IsFeasible, IReadOnlyList<DeviceMode> Modes, Energy Uses, IReadOnlyList<DeviceMode?> LeastModes, Energy? Least, Energy? Missing, double GapFraction)
{
    /// <summary>Whether no better schedule exists.</summary>
    public bool IsOptimal => IsFeasible && GapFraction <= 1e-9;
}
