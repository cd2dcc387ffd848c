namespace SoloRide.Batteries;

/// <summary>What changes during a run of <see cref="PowerKernel"/>; the caller owns all memory.</summary>
internal ref struct PowerState
{
    /// <summary>[h] Time run so far.</summary>
    public double ClockH;

    /// <summary>[Wh at the port] Left in the bank.</summary>
    public double BankWh;

    /// <summary>[Wh, device] In the cells, also what the cold holds back.</summary>
    public Span<double> StoredWh;

    /// <summary>[h, device] First time the device was wanted and had nothing; infinite when never.</summary>
    public Span<double> OutageH;

    /// <summary>[Wh, device] Delivered to the device's circuits.</summary>
    public Span<double> DeliveredWh;

    /// <summary>[Wh at the port, device] Taken from the bank.</summary>
    public Span<double> TakenWh;

    /// <summary>[device] 1 when the device has energy above its cut-off (or hangs on a bank that carries it) at the end of the last stretch.</summary>
    public Span<double> Works;

    /// <summary>[5 * devices] Scratch.</summary>
    public Span<double> Scratch;
}
