namespace SoloRide.Escape;

/// <summary>How long to plan to wait for help: classes, since no agency promises a time and no distribution is published.</summary>
public enum ResponseClass
{
    /// <summary>R1: position known, weather to fly, daylight. Plan to wait 3 h.</summary>
    R1,

    /// <summary>R2: position known, a team comes on the ground. Plan to wait 6 h.</summary>
    R2,

    /// <summary>R3: position known, night or bad weather. Plan to wait 24 h. The default for a lone rider beyond the telephone.</summary>
    R3,

    /// <summary>R4: no position: nobody was called, the rider is only overdue. Plan to wait 48 h.</summary>
    R4,
}
