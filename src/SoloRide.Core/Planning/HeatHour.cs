using SoloRide.Exposure;

namespace SoloRide.Planning;

/// <summary>From when on a heat category holds, until the next such hour.</summary>
/// <param name="From">Instant.</param>
/// <param name="Category">Category of the army work and rest table.</param>
public sealed record HeatHour(DateTimeOffset From, HeatCategory Category);
