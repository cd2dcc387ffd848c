using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>How a rider passes one step: mode, time with its spread in parts, power and energy.</summary>
/// <remarks>
/// Time scatters log-normally: typical × ride factor × group factor × step factor, each with the geometric standard deviation given
/// here; the step factor has mean 1, so that typical times add up. Steps of one <see cref="SpreadGroup"/> share their group factor, all steps share the ride factor. Immutable.
/// </remarks>
public sealed record StepPace
{
    /// <summary>Spread groups are numbered from 0 up to below this.</summary>
    public const int SpreadGroups = TrailPriors.Surfaces + TrailPriors.Difficulties;

    private readonly StepOutcome _outcome;

    internal StepPace(TrailStep step, in StepOutcome outcome, double rideLogSd, double groupLogSd, double stepLogSd, int group, in StepSpread spread, double bodyKg, Finding? finding)
    {
        Step = step;
        _outcome = outcome;
        RideLogSd = rideLogSd;
        GroupLogSd = groupLogSd;
        StepLogSd = stepLogSd;
        SpreadGroup = group;
        Spread = spread;
        BodyKg = bodyKg;
        Finding = finding;
    }

    /// <summary>The step.</summary>
    public TrailStep Step { get; }

    /// <summary>How the rider moves: the mode of least time, or the one asked for.</summary>
    public TravelMode Mode => _outcome.Mode;

    /// <summary>Time in motion, P10 to P90 with all spread.</summary>
    public Estimate<TimeSpan> Moving
    {
        get
        {
            double k = Math.Exp(NormalKernel.Z90 * Math.Sqrt((RideLogSd * RideLogSd) + (GroupLogSd * GroupLogSd) + (StepLogSd * StepLogSd)));
            return new(TimeSpan.FromSeconds(TimeS), TimeSpan.FromSeconds(TimeS / k), TimeSpan.FromSeconds(TimeS * k));
        }
    }

    /// <summary>Typical time in motion [s].</summary>
    public double TypicalS => TimeS;

    /// <summary>Shared by the whole ride, as a geometric standard deviation [factor].</summary>
    public double RideGsdFactor => Math.Exp(RideLogSd);

    /// <summary>Shared by the steps of the same group, as a geometric standard deviation [factor].</summary>
    public double GroupGsdFactor => Math.Exp(GroupLogSd);

    /// <summary>The step's own, as a geometric standard deviation [factor].</summary>
    public double StepGsdFactor => Math.Exp(StepLogSd);

    /// <summary>Which steps share the group factor: those limited by power or pace on one surface, or by the speed cap of one difficulty.</summary>
    public int SpreadGroup { get; }

    /// <summary>Typical speed along the slope.</summary>
    public Speed Pace => Speed.FromMetersPerSecond(double.IsFinite(_outcome.SpeedMps) ? _outcome.SpeedMps : 0);

    /// <summary>Mean power at the pedals.</summary>
    public Power MechanicalPower => Power.FromWatts(_outcome.PedalW);

    /// <summary>Mean power that the brakes take.</summary>
    public Power BrakingPower => Power.FromWatts(_outcome.BrakeW);

    /// <summary>Mean metabolic power: what the body turns over; heat strain and sweat follow from it.</summary>
    public Power MetabolicPower => Power.FromWatts(_outcome.MetabolicW);

    /// <summary>Metabolic power per body mass [W/kg].</summary>
    public double MetabolicWPerKg => _outcome.MetabolicW / BodyKg;

    /// <summary>Energy that the body turns over on the step.</summary>
    public Energy MetabolicEnergy => Energy.FromJoules(_outcome.MetabolicW * TimeS);

    /// <summary>Energy that the motor gives at the wheel on the step.</summary>
    public Energy AssistEnergy => Energy.FromJoules(_outcome.AssistW * TimeS);

    /// <summary>Share of the step that is ridden where it is ridden at all [share of 1]; the rest is pushed or carried.</summary>
    public double RiddenFraction => _outcome.RiddenFraction;

    /// <summary>Whether the technical speed cap, not power, sets the pace.</summary>
    public bool LimitedByTechnique => _outcome.CapLimited;

    /// <summary>What to know about this step; null when nothing.</summary>
    public Finding? Finding { get; }

    internal double TimeS => _outcome.TimeS;

    internal double RideLogSd { get; }

    internal double GroupLogSd { get; }

    internal double StepLogSd { get; }

    internal StepSpread Spread { get; }

    internal double BodyKg { get; }

    internal StepOutcome Outcome => _outcome;
}
