using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>From the printed capacity to the cell of a device.</summary>
internal static class PowerBankKernel
{
    /// <summary>P10 to P90 half-width of the converter's efficiency.</summary>
    [Source("assumption-charging-efficiency")]
    public const double ConverterSpread = 0.05;

    [Source("assumption-bank-chain", "port = (cells - idle·h)·eta_conv, not below 0")]
    public static double AtPortWh(double cellsWh, double idleW, double idleH, double converter)
        => Math.Max(0, (cellsWh - (idleW * idleH)) * converter);
}
