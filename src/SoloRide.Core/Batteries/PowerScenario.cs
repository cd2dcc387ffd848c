using System.Runtime.CompilerServices;
using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>
/// Devices made ready for many runs: loads of all modes, and what the cold lets out over cell temperature on a grid. Immutable; built once, shared by
/// all samples and threads.
/// </summary>
internal sealed class PowerScenario
{
    /// <summary>Grid of cell temperatures: 2.5 K apart, so that the error of the linear lookup stays below 0.001.</summary>
    public const double GridLowC = -40;
    public const double GridStepC = 2.5;
    public const int GridNodes = 41;

    private readonly double[] _shares;

    private PowerScenario(IReadOnlyList<Device> devices)
    {
        Devices = devices;
        Count = devices.Count;
        MaxModes = devices.Count == 0 ? 1 : devices.Max(d => d.Modes.Count);
        TypicalW = new double[Count * MaxModes];
        LogLow = new double[Count * MaxModes];
        LogHigh = new double[Count * MaxModes];
        LinearLowW = new double[Count * MaxModes];
        WarmShare = new double[Count];
        EfficiencyFraction = new double[Count];
        FullWh = new double[Count];
        StartFraction = new double[Count];
        ChargeFloorC = new double[Count];
        SpreadFraction = new double[Count];
        _shares = new double[Count * (MaxModes + 1) * GridNodes * 2];
        for (int d = 0; d < Count; d++)
        {
            Device device = devices[d];
            WarmShare[d] = CellKernel.WarmShare(device.Carried);
            EfficiencyFraction[d] = device.ChargingEfficiencyFraction;
            FullWh[d] = device.Pack.FullWh;
            StartFraction[d] = device.StartChargeFraction * CellKernel.SelfDischargeLeft(device.Pack.SelfDischargePerMonthFraction, device.IdleSince.TotalDays);
            ChargeFloorC[d] = BatteriesConstants.ChargeFloorC;
            SpreadFraction[d] = device.Pack.CapacitySpreadFraction / NormalKernel.Z90;
            for (int m = 0; m < device.Modes.Count; m++)
            {
                DeviceMode mode = device.Modes[m];
                int at = (d * MaxModes) + m;
                TypicalW[at] = mode.TypicalW;
                LogHigh[at] = mode.TypicalW > 0 ? Math.Log(mode.HighW / mode.TypicalW) / NormalKernel.Z90 : 0;
                LogLow[at] = mode.LowW > 0 ? Math.Log(mode.TypicalW / mode.LowW) / NormalKernel.Z90 : double.NaN;
                LinearLowW[at] = (mode.TypicalW - mode.LowW) / NormalKernel.Z90;
            }

            for (int m = -1; m < device.Modes.Count; m++)
            {
                double loadW = m < 0 ? 0 : device.Modes[m].TypicalW;
                int row = Row(d, m);
                for (int i = 0; i < GridNodes; i++)
                {
                    CellShare share = device.Pack.Share(GridLowC + (i * GridStepC), loadW);
                    _shares[row + (2 * i)] = share.Open;
                    _shares[row + (2 * i) + 1] = share.Delivered;
                }
            }
        }
    }

    public IReadOnlyList<Device> Devices { get; }

    public int Count { get; }

    public int MaxModes { get; }

    /// <summary>[device * MaxModes + mode] Median draw.</summary>
    public double[] TypicalW { get; }

    /// <summary>Logarithm of high over typical, per standard score.</summary>
    public double[] LogHigh { get; }

    /// <summary>Logarithm of typical over low, per standard score; NaN when low is 0.</summary>
    public double[] LogLow { get; }

    /// <summary>Typical less low, per standard score; used when low is 0.</summary>
    public double[] LinearLowW { get; }

    public double[] WarmShare { get; }

    public double[] EfficiencyFraction { get; }

    public double[] FullWh { get; }

    public double[] StartFraction { get; }

    public double[] ChargeFloorC { get; }

    /// <summary>Standard deviation of the capacity [share].</summary>
    public double[] SpreadFraction { get; }

    public static PowerScenario Of(IReadOnlyList<Device> devices) => new(devices);

    /// <summary>Where the shares of a device in a mode (-1 off) begin.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Row(int device, int mode) => ((device * (MaxModes + 1)) + mode + 1) * GridNodes * 2;

    /// <summary>What comes out of a device in a mode (-1 off) at a cell temperature; linear on the grid, held outside.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public CellShare Share(int device, int mode, double cellC) => ShareInRow(Row(device, mode), (cellC - GridLowC) / GridStepC);

    /// <summary>The same at a place on the grid.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public CellShare ShareInRow(int row, double gridX)
    {
        double x = Math.Clamp(gridX, 0, GridNodes - 1);
        int i = Math.Min((int)x, GridNodes - 2);
        ReadOnlySpan<double> at = _shares.AsSpan(row + (2 * i), 4);
        double t = x - i;
        return new CellShare(at[0] + (t * (at[2] - at[0])), at[1] + (t * (at[3] - at[1])));
    }

    /// <summary>Draws of all modes for a standard score per device: log-linear between low, typical and high.</summary>
    public void Loads(ReadOnlySpan<double> scores, Span<double> loadsW)
    {
        for (int d = 0; d < Count; d++)
        {
            double z = scores[d];
            for (int m = d * MaxModes; m < (d + 1) * MaxModes; m++)
            {
                double typical = TypicalW[m];
                loadsW[m] = typical == 0 && LinearLowW[m] == 0 ? 0
                    : z >= 0 ? typical * Math.Exp(z * LogHigh[m])
                    : double.IsNaN(LogLow[m]) ? Math.Max(0, typical + (z * LinearLowW[m]))
                    : typical * Math.Exp(z * LogLow[m]);
            }
        }
    }
}
