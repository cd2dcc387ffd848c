using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>A node of a <see cref="TrailNetwork"/> where being alone ends.</summary>
/// <param name="Node">[0 or more] The node.</param>
/// <param name="Name">Its name; when two exits take the same time, the one whose name comes first in ordinal order is reported.</param>
public sealed record NetworkExit(int Node, string Name)
{
    /// <summary>The node.</summary>
    public int Node { get; } = Guard.InRange(Node, 0, int.MaxValue, "(node)");

    /// <summary>Its name.</summary>
    public string Name { get; } = Guard.NotEmpty(Name);
}
