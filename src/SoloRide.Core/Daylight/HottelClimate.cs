namespace SoloRide.Daylight;

/// <summary>Climate of Hottel's clear-sky model.</summary>
internal enum HottelClimate
{
    MidlatitudeSummer,
    Tropical,
    SubarcticSummer,
    MidlatitudeWinter,
}
