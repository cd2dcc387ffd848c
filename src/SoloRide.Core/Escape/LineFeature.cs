using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>A line on the ground that is hard to miss: a road, a river, a fence, a power line, a ridge path.</summary>
/// <remarks>Immutable.</remarks>
public sealed record LineFeature
{
    /// <summary>Makes a feature.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="points">Its line; at least one point.</param>
    /// <exception cref="ArgumentException">No name or no point.</exception>
    public LineFeature(string name, IReadOnlyList<GeoPoint> points)
    {
        Name = Guard.NotEmpty(name);
        Points = [.. Guard.NotNull(points)];
        if (Points.Count == 0)
        {
            throw new ArgumentException($"Line feature '{name}' needs at least one point.", nameof(points));
        }
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>Its line.</summary>
    public IReadOnlyList<GeoPoint> Points { get; }
}
