namespace SoloRide.Exposure;

/// <summary>Published bands of wind chill for bare skin.</summary>
public enum FrostbiteBand
{
    /// <summary>Air at or above 0 °C: skin does not freeze; hypothermia still can come.</summary>
    None,

    /// <summary>Wind chill above -10.</summary>
    Slight,

    /// <summary>From -10: low risk of frostbite; hypothermia when out long.</summary>
    Low,

    /// <summary>From -28: exposed skin can freeze in 10 to 30 minutes.</summary>
    Freezing10To30Minutes,

    /// <summary>From -40: exposed skin can freeze in 5 to 10 minutes.</summary>
    Freezing5To10Minutes,

    /// <summary>From -48: exposed skin can freeze in 2 to 5 minutes.</summary>
    Freezing2To5Minutes,

    /// <summary>From -55: exposed skin can freeze in less than 2 minutes.</summary>
    FreezingUnder2Minutes,
}
