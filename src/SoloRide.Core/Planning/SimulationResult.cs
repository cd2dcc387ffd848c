namespace SoloRide.Planning;

/// <summary>What the samples gave; station-major arrays, sample index last.</summary>
internal sealed class SimulationResult
{
    public SimulationResult(int samples, int stations)
    {
        Samples = samples;
        Stations = stations;
        ArrivalSec = new double[stations * samples];
        WaterL = new double[stations * samples];
        FinishSec = new double[samples];
        MovingSec = new double[samples];
        StoppedSec = new double[samples];
        DarkSec = new double[samples];
        ShortWaterL = new double[samples];
        LeastWaterL = new double[samples];
        SweatL = new double[samples];
        DrunkL = new double[samples];
        FilledL = new double[samples];
        Kcal = new double[samples];
        SodiumMg = new double[samples];
        EatenKcal = new double[samples];
        LampLeftSec = new double[samples];
        Draws = new double[samples * SimulationKernel.NamedDraws];
    }

    public int Samples { get; }

    public int Stations { get; }

    public double[] ArrivalSec { get; }

    public double[] WaterL { get; }

    public double[] FinishSec { get; }

    public double[] MovingSec { get; }

    public double[] StoppedSec { get; }

    public double[] DarkSec { get; }

    /// <summary>Wanted and not in hand, added up.</summary>
    public double[] ShortWaterL { get; }

    /// <summary>Least water in hand on the way.</summary>
    public double[] LeastWaterL { get; }

    public double[] SweatL { get; }

    public double[] DrunkL { get; }

    public double[] FilledL { get; }

    public double[] Kcal { get; }

    public double[] SodiumMg { get; }

    public double[] EatenKcal { get; }

    /// <summary>Light of the best single lamp left at the finish [s]; negative when it ended on the way.</summary>
    public double[] LampLeftSec { get; }

    /// <summary>The draws that have names, sample-major, for shares of variance.</summary>
    public double[] Draws { get; }

    public ReadOnlySpan<double> Arrivals(int station) => ArrivalSec.AsSpan(station * Samples, Samples);

    public ReadOnlySpan<double> Water(int station) => WaterL.AsSpan(station * Samples, Samples);
}
