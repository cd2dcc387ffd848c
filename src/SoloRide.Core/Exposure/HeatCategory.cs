namespace SoloRide.Exposure;

/// <summary>Heat category of the army work and rest table, by outdoor WBGT.</summary>
public enum HeatCategory
{
    /// <summary>Below 78 °F (25.6 °C).</summary>
    None,

    /// <summary>From 78 °F (25.6 °C).</summary>
    One,

    /// <summary>From 82 °F (27.8 °C).</summary>
    Two,

    /// <summary>From 85 °F (29.4 °C).</summary>
    Three,

    /// <summary>From 88 °F (31.1 °C).</summary>
    Four,

    /// <summary>From 90 °F (32.2 °C).</summary>
    Five,
}
