using UnitsNet;

namespace SoloRide.Escape;

/// <summary>The latest time to pass a place and still meet every clock ahead.</summary>
/// <param name="AlongRoute">Distance from the start.</param>
/// <param name="At">The latest time; null when no clock lies ahead, or when no time is left (see <paramref name="IsPossible"/>).</param>
/// <param name="Binding">Name of the clock that sets it; null when there is none.</param>
/// <param name="BindingKind">Its kind.</param>
/// <param name="IsPossible">Whether any time of passing meets all clocks ahead.</param>
public sealed record LatestPass(Length AlongRoute, DateTimeOffset? At, string? Binding, DeadlineKind? BindingKind, bool IsPossible);
