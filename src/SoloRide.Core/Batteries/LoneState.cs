namespace SoloRide.Batteries;

/// <summary>What changes during <see cref="PowerKernel.RunAlone"/>.</summary>
internal struct LoneState
{
    /// <summary>[h] Time run so far.</summary>
    public double ClockH;

    /// <summary>[Wh] In the cells, also what the cold holds back.</summary>
    public double StoredWh;

    /// <summary>[h] First time the device was wanted and had nothing; infinite when never.</summary>
    public double OutageH;

    /// <summary>1 when the device has energy above its cut-off at the end of the last stretch.</summary>
    public double Works;

    /// <summary>[W] Draw on the store in the last stretch.</summary>
    public double LastDrawnW;

    /// <summary>[Wh] What the cut-off holds back in the last stretch.</summary>
    public double LastFloorWh;
}
