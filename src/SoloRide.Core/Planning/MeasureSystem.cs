namespace SoloRide.Planning;

/// <summary>Which units a text uses.</summary>
public enum MeasureSystem
{
    /// <summary>km, m, L, °C, kg.</summary>
    Metric,

    /// <summary>mi, ft, qt, °F, lb.</summary>
    UsCustomary,
}
