namespace SoloRide.Batteries;

/// <summary>What a lamp's output does while the battery empties.</summary>
public enum LampRegulation
{
    /// <summary>Not stated.</summary>
    Unknown,

    /// <summary>Output held until the battery is nearly empty.</summary>
    Constant,

    /// <summary>Output lowered after minutes or with heat; the printed lumens are those of the first moments.</summary>
    StepsDown,
}
