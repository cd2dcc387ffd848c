using UnitsNet;

namespace SoloRide.Routes;

/// <summary>The figures by which two routes are compared.</summary>
/// <param name="Length">Length.</param>
/// <param name="Ascent">Sum of rises by the profiles of the recordings it is made of, so that parts add up; null without heights.</param>
/// <param name="Descent">Sum of falls, positive; null without heights.</param>
/// <param name="Hardest">Hardest difficulty that is stated anywhere.</param>
/// <param name="AtHardest">Length at that difficulty.</param>
/// <param name="DifficultyUnknown">Length without a stated difficulty.</param>
/// <param name="Exits">Names of the exits on the route, in the order of travel.</param>
public sealed record RouteFigures(
    Length Length, Length? Ascent, Length? Descent, TrailDifficulty Hardest, Length AtHardest, Length DifficultyUnknown, IReadOnlyList<string> Exits);
