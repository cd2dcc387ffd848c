namespace SoloRide.Exposure;

/// <summary>What a part of the ride asks of the clothing.</summary>
public enum LayerVerdict
{
    /// <summary>What is worn fits.</summary>
    AsWorn,

    /// <summary>Put on carried layers: then it fits.</summary>
    PutOn,

    /// <summary>Worn is at least 0.3 clo more than the neutral level asks for: open or take off, if the part is long.</summary>
    TakeOff,

    /// <summary>Even all that is carried is too little, but the part ends before the limit of strain.</summary>
    TooLittleButBrief,

    /// <summary>Even all that is carried is too little, and the limit of strain comes first.</summary>
    TooLittle,
}
