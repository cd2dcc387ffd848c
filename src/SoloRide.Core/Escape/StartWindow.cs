namespace SoloRide.Escape;

/// <summary>A span of starting times that meets every clock.</summary>
/// <param name="From">Earliest start.</param>
/// <param name="To">Latest start.</param>
/// <param name="Opener">Name of the clock that sets the earliest start; null when it is the caller's own limit.</param>
/// <param name="Closer">Name of the clock that sets the latest start; null when it is the caller's own limit.</param>
public sealed record StartWindow(DateTimeOffset From, DateTimeOffset To, string? Opener, string? Closer);
