namespace SoloRide.Hydration;

/// <summary>How the water of a ride is come by.</summary>
public enum WaterSupplyWay
{
    /// <summary>Water that needs no treatment only: carried from the start, from taps and caches.</summary>
    CarryAll,

    /// <summary>Found water is treated with the first method.</summary>
    Treat,

    /// <summary>The first method is lost: the second one, or carrying where there is none.</summary>
    FirstMethodLost,
}
