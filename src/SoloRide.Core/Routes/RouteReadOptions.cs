using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>How a route file is read.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RouteReadOptions
{
    internal static RouteReadOptions Default { get; } = new();

    /// <summary>Whether every leniency is refused with an <see cref="InputFormatException"/> instead of noted as a finding.</summary>
    public bool Strict { get; init; }

    /// <summary>Which line becomes the route when the file has several.</summary>
    public LineChoice Lines { get; init => field = Guard.Defined(value, nameof(Lines)); } = LineChoice.FirstTrack;

    /// <summary>Number of the line, from 0 in the file's order, for <see cref="LineChoice.Index"/>.</summary>
    public int LineIndex { get; init => field = Guard.InRange(value, 0, int.MaxValue, "(index)", nameof(LineIndex)); }

    /// <summary>Deepest nesting of elements or JSON values; 8 to 1000, 64 unless stated.</summary>
    public int MaxDepth { get; init => field = Guard.InRange(value, 8, 1000, "levels", nameof(MaxDepth)); } = 64;

    /// <summary>Longest attribute value; 64 to 1 000 000 000 characters, 4 194 304 unless stated.</summary>
    public int MaxAttributeLength { get; init => field = Guard.InRange(value, 64, 1_000_000_000, "characters", nameof(MaxAttributeLength)); } = 4 * 1024 * 1024;

    /// <summary>Largest file, after unpacking; 1024 bytes to 2 GB, 268 435 456 bytes unless stated.</summary>
    public int MaxBytes { get; init => field = Guard.InRange(value, 1024, int.MaxValue, "bytes", nameof(MaxBytes)); } = 256 * 1024 * 1024;

    /// <summary>Most points, so that a small packed file cannot fill the memory; 1000 to 100 000 000, 20 000 000 unless stated.</summary>
    public int MaxPoints { get; init => field = Guard.InRange(value, 1000, 100_000_000, "points", nameof(MaxPoints)); } = 20_000_000;
}
