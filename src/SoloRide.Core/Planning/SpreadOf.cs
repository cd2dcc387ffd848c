namespace SoloRide.Planning;

/// <summary>Totals of a ride whose spread is asked for.</summary>
internal enum SpreadOf
{
    Moving,
    Dark,
    Sweat,
    Drunk,

    /// <summary>Planned intake with water always at hand: drunk and short together.</summary>
    Wanted,
    Kcal,
    Sodium,
}
