using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>From the printed capacity to the cell of a device.</summary>
internal static class PowerBankKernel
{
    /// <summary>P10 to P90 half-width of the converter's efficiency.</summary>
    [Source("assumption-charging-efficiency")]
    public const double ConverterSpread = 0.05;

    /// <summary>Rate at which a bank's cells are counted when its port could take more [C].</summary>
    [Source("assumption-bank-rate", "0.5C")]
    public const double MostRateC = 0.5;

    /// <summary>Most energy over mass that is believed of a whole bank [Wh/kg].</summary>
    [Source("assumption-bank-density", "cells to about 270 Wh/kg, housing and electronics a sixth of the mass")]
    public const double MostWhPerKg = 230;

    /// <summary>Carried by passengers without asking [Wh].</summary>
    [Source("air-travel-lithium", "100 Wh without approval")]
    public const double CarryWh = 100;

    /// <summary>Carried with the operator's approval [Wh].</summary>
    [Source("air-travel-lithium", "100 to 160 Wh with the operator's approval")]
    public const double ApprovalWh = 160;

    [Source("assumption-bank-chain", "Wh = mAh/1000·V")]
    public static double PrintedWh(double printedMah, double cellV) => printedMah / 1000 * cellV;

    [Source("assumption-bank-chain", "port = (cells - idle·h)·eta_conv, not below 0")]
    public static double AtPortWh(double cellsWh, double idleW, double idleH, double converter)
        => Math.Max(0, (cellsWh - (idleW * idleH)) * converter);

    [Source("assumption-bank-chain", "mAh at 5 V")]
    public static double PortMah(double portWh) => portWh / BatteriesConstants.UsbV * 1000;

    public static AirCarriage Air(double printedWh)
        => printedWh <= CarryWh ? AirCarriage.CarryOn : printedWh <= ApprovalWh ? AirCarriage.WithApproval : AirCarriage.Forbidden;
}
