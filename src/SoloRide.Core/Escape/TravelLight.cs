namespace SoloRide.Escape;

/// <summary>By what light the way out is found.</summary>
public enum TravelLight
{
    /// <summary>Daylight or usable twilight.</summary>
    Day,

    /// <summary>A lamp.</summary>
    Lamp,
}
