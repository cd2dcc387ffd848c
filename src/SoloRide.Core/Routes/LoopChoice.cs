using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>Loops from a trailhead, nearest to the wished length first, and how much of what exists was looked at.</summary>
/// <param name="Loops">The loops; empty when none was found.</param>
/// <param name="IsExhaustive">Whether every loop was looked at: then the first is the best, and none found means that none exists.</param>
/// <param name="LoopsSeen">Loops within the ranges that were looked at.</param>
/// <param name="Gap">How far the first loop can at most be from the best in nearness to the wished length: 0 when all were looked at; null when none was found.</param>
/// <param name="Findings">What a reader should know.</param>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record LoopChoice(IReadOnlyList<LoopRide> Loops, bool IsExhaustive, int LoopsSeen, Length? Gap, IReadOnlyList<Finding> Findings)
{
    /// <summary>
    /// When no loop was found: what is barred on the one that keeps to every range and needs the least opened, by name and place, with what
    /// would open it. Empty when loops were found, or when no bar stands in the way. Which range would have to give instead is told by the findings.
    /// </summary>
    public IReadOnlyList<WayRefusal> Refusals { get; init; } = [];

    /// <summary>Each loop on a line, whether all were looked at, and the findings.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        string seen = IsExhaustive ? "Every loop was looked at." : Gap is { } gap ? $"Not every loop was looked at; none can be nearer to the wish by more than {Text.F(gap.Meters, 0)} m." : "Not every loop was looked at.";
        return Render.Lines(string.Join('\n', Loops.Select(l => l.ToString()).DefaultIfEmpty("No loop.").Append(seen)), Findings, []);
    }
}
