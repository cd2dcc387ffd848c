using UnitsNet;

namespace SoloRide.Planning;

/// <summary>The place past which one resource no longer suffices for the way back.</summary>
/// <param name="Resource">Which resource.</param>
/// <param name="AlongRoute">Where, every doubtful source counted as dry.</param>
/// <param name="At">When the rider comes there at the typical pace.</param>
public sealed record NoReturn(ResourceKind Resource, Length AlongRoute, DateTimeOffset At);
