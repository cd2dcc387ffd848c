using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Where the work on the bike came from and where it went; on foot nothing is counted. Steady speed within a step.</summary>
/// <remarks>Inputs and outputs are equal but for rounding: <see cref="ImbalanceFraction"/> says by how much. Immutable.</remarks>
public sealed record WorkLedger
{
    internal WorkLedger(double pedalJ, double motorJ, double heightLostJ, double driveJ, double heightGainedJ, double rollingJ, double airJ, double bearingsJ, double brakesJ)
    {
        Pedals = Energy.FromJoules(pedalJ);
        Motor = Energy.FromJoules(motorJ);
        HeightLost = Energy.FromJoules(heightLostJ);
        Drive = Energy.FromJoules(driveJ);
        HeightGained = Energy.FromJoules(heightGainedJ);
        Rolling = Energy.FromJoules(rollingJ);
        Air = Energy.FromJoules(airJ);
        Bearings = Energy.FromJoules(bearingsJ);
        Brakes = Energy.FromJoules(brakesJ);
        double input = pedalJ + motorJ + heightLostJ;
        ImbalanceFraction = input > 0 ? Math.Abs(input - driveJ - heightGainedJ - rollingJ - airJ - bearingsJ - brakesJ) / input : 0;
    }

    /// <summary>In: at the pedals.</summary>
    public Energy Pedals { get; }

    /// <summary>In: motor at the wheel.</summary>
    public Energy Motor { get; }

    /// <summary>In: height lost.</summary>
    public Energy HeightLost { get; }

    /// <summary>Out: chain and gears.</summary>
    public Energy Drive { get; }

    /// <summary>Out: height gained.</summary>
    public Energy HeightGained { get; }

    /// <summary>Out: tyres and ground.</summary>
    public Energy Rolling { get; }

    /// <summary>Out: air; negative where a tail wind gave more than it took.</summary>
    public Energy Air { get; }

    /// <summary>Out: wheel bearings.</summary>
    public Energy Bearings { get; }

    /// <summary>Out: brakes.</summary>
    public Energy Brakes { get; }

    /// <summary>What does not close [share of all that came in].</summary>
    public double ImbalanceFraction { get; }
}
