using UnitsNet;

namespace SoloRide.Routes;

/// <summary>What a batch tells of one file, without its points.</summary>
/// <param name="Path">The file.</param>
/// <param name="Name">Name of the route; empty when it could not be read.</param>
/// <param name="Length">Length; null when the file could not be read.</param>
/// <param name="Ascent">Ascent; null without heights.</param>
/// <param name="Descent">Descent; null without heights.</param>
/// <param name="Findings">Findings of the route and its profile.</param>
/// <param name="Error">Why the file could not be read; null when it could.</param>
public sealed record RouteSummary(
    string Path, string Name, Length? Length, Estimate<Length>? Ascent, Estimate<Length>? Descent, IReadOnlyList<Finding> Findings, InputFormatException? Error);
