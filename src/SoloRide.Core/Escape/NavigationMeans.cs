using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>A means of finding the way, with what it depends on.</summary>
/// <remarks>Immutable.</remarks>
public sealed record NavigationMeans
{
    /// <summary>Makes a means.</summary>
    /// <param name="name">Such as "bike computer", "paper map and compass", "telephone map".</param>
    /// <param name="dependsOn">What it fails with: a device, a battery, a power bank, a signal, a mount. Names are compared without regard to case.</param>
    /// <exception cref="ArgumentException">No name, or an empty dependency.</exception>
    public NavigationMeans(string name, IReadOnlyList<string> dependsOn)
    {
        Name = Guard.NotEmpty(name);
        DependsOn = [.. Guard.NotNull(dependsOn).Select(d => Guard.NotEmpty(d, nameof(dependsOn)))];
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What it fails with.</summary>
    public IReadOnlyList<string> DependsOn { get; }
}
