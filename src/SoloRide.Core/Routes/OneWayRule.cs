namespace SoloRide.Routes;

/// <summary>In which direction a trail may be ridden.</summary>
public enum OneWayRule
{
    /// <summary>Both, or not stated.</summary>
    None,

    /// <summary>Only in the direction of the line.</summary>
    Forward,

    /// <summary>Only against the direction of the line.</summary>
    Backward,
}
