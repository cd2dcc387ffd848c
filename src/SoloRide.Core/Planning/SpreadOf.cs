namespace SoloRide.Planning;

/// <summary>Totals of a ride whose spread is asked for.</summary>
internal enum SpreadOf
{
    Moving,
    Dark,
    Sweat,
    Drunk,
    Kcal,
    Sodium,
}
