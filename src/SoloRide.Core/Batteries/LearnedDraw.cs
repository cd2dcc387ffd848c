using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>What a log says about the draw of one mode.</summary>
/// <param name="Mode">Mode.</param>
/// <param name="Draw">Power drawn, P10 to P90.</param>
/// <param name="Time">Time in the log.</param>
/// <param name="Findings">Weak or doubtful parts of the log.</param>
public sealed record LearnedDraw(string Mode, Estimate<Power> Draw, TimeSpan Time, IReadOnlyList<Finding> Findings);
