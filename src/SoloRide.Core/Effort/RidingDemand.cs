using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What riding at a given speed takes.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RidingDemand
{
    internal RidingDemand(in StepOutcome outcome, double sustainedW, WorkLedger ledger, IReadOnlyList<Finding> findings)
    {
        Pace = Speed.FromMetersPerSecond(outcome.RideSpeedMps);
        MechanicalPower = Power.FromWatts(outcome.PedalW);
        AssistPower = Power.FromWatts(outcome.AssistW);
        BrakingPower = Power.FromWatts(outcome.BrakeW);
        MetabolicPower = Power.FromWatts(outcome.MetabolicW);
        SustainedFraction = sustainedW > 0 ? outcome.PedalW / sustainedW : double.PositiveInfinity;
        Ledger = ledger;
        Findings = findings;
    }

    /// <summary>The speed asked for.</summary>
    public Speed Pace { get; }

    /// <summary>At the pedals.</summary>
    public Power MechanicalPower { get; }

    /// <summary>Of the motor at the wheel.</summary>
    public Power AssistPower { get; }

    /// <summary>What the brakes take, so that the bike does not run faster.</summary>
    public Power BrakingPower { get; }

    /// <summary>What the body turns over.</summary>
    public Power MetabolicPower { get; }

    /// <summary>Power at the pedals over the sustained power at this height, heat and hour [share of 1; above 1 it is not held for hours].</summary>
    public double SustainedFraction { get; }

    /// <summary>Where the work of the step goes.</summary>
    public WorkLedger Ledger { get; }

    /// <summary>Where this rider would not ride so: above the sustained power, above the technical cap, too slow to balance.</summary>
    public IReadOnlyList<Finding> Findings { get; }
}
