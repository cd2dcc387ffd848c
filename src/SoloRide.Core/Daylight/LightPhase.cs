namespace SoloRide.Daylight;

/// <summary>How much light the Sun gives, by its true altitude; terrain, trees and cloud make it darker.</summary>
public enum LightPhase
{
    /// <summary>The Sun's upper limb is above a free horizon (centre above −50′).</summary>
    Day,

    /// <summary>Centre between −50′ and −6°: outlines and trail are seen under a clear sky.</summary>
    CivilTwilight,

    /// <summary>Centre between −6° and −12°: riding needs lights.</summary>
    NauticalTwilight,

    /// <summary>Centre between −12° and −18°.</summary>
    AstronomicalTwilight,

    /// <summary>Centre below −18°.</summary>
    Night,
}
