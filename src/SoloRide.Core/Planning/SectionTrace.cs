namespace SoloRide.Planning;

/// <summary>The state at the end of each section of one run.</summary>
internal sealed class SectionTrace(int sections)
{
    public double[] ClockSec { get; } = new double[sections];

    public double[] WaterL { get; } = new double[sections];

    public double[] SweatL { get; } = new double[sections];

    public double[] DrunkL { get; } = new double[sections];

    /// <summary>Drunk, and wanted without being in hand [L].</summary>
    public double[] WantL { get; } = new double[sections];

    public double[] Joules { get; } = new double[sections];

    public double[] EatenKcal { get; } = new double[sections];

    public bool[] Dark { get; } = new bool[sections];

    public double[] MoveSec { get; } = new double[sections];

    public double[] StandSec { get; } = new double[sections];

    /// <summary>Water and food carried along the section [kg].</summary>
    public double[] CarriedKg { get; } = new double[sections];

    /// <summary>Water taken at sources before the section [L].</summary>
    public double[] FilledL { get; } = new double[sections];

    public double[] SodiumMg { get; } = new double[sections];

    public double[] DarkSec { get; } = new double[sections];
}
