using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What a rider can hold for hours, at low altitude in mild air, and what that was taken from.</summary>
/// <remarks>Immutable.</remarks>
public sealed record SustainedEffort
{
    private readonly double _powerW;

    internal SustainedEffort(EffortBasis basis, double powerW, double logSd, double grossEfficiency)
    {
        Basis = basis;
        _powerW = powerW;
        LogSd = logSd;
        GrossEfficiencyFraction = grossEfficiency;
    }

    /// <summary>What was used.</summary>
    public EffortBasis Basis { get; }

    /// <summary>Mechanical power at the pedals, P10 to P90.</summary>
    public Estimate<Power> Power
        => new(UnitsNet.Power.FromWatts(_powerW), UnitsNet.Power.FromWatts(_powerW / Factor90), UnitsNet.Power.FromWatts(_powerW * Factor90));

    /// <summary>Whole metabolic power at that effort, typical.</summary>
    public Power MetabolicPower => UnitsNet.Power.FromWatts(MetabolicW);

    /// <summary>Pedal power over metabolic power [share of 1].</summary>
    public double GrossEfficiencyFraction { get; }

    /// <summary>One standard deviation multiplies or divides the power by this [factor].</summary>
    public double GsdFactor => Math.Exp(LogSd);

    internal double PowerW => _powerW;

    internal double MetabolicW => _powerW / GrossEfficiencyFraction;

    internal double LogSd { get; }

    private double Factor90 => Math.Exp(NormalKernel.Z90 * LogSd);
}
