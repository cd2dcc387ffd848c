using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>How a batch of route files is worked through.</summary>
/// <remarks>Immutable.</remarks>
public sealed record BatchOptions
{
    internal static BatchOptions Default { get; } = new();

    /// <summary>How files are read.</summary>
    public RouteReadOptions Reading { get; init => field = Guard.NotNull(value, nameof(Reading)); } = RouteReadOptions.Default;

    /// <summary>How profiles are made.</summary>
    public ElevationOptions Elevation { get; init => field = Guard.NotNull(value, nameof(Elevation)); } = ElevationOptions.Default;

    /// <summary>Most files at work at one time, which bounds the memory; 1 to 1024, null for one a processor.</summary>
    public int? MaxParallel { get; init => field = value is { } v ? Guard.InRange(v, 1, 1024, "files", nameof(MaxParallel)) : null; }
}
