using SoloRide.Effort;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>What the plan expected up to a place: the yardstick for news from the trail and for the ride that is done.</content>
internal sealed partial class PlanBuilder
{
    /// <summary>What the plan expected up to a place.</summary>
    /// <param name="Clock">From the start to the place, stops and pauses included: the middle of the samples.</param>
    /// <param name="Pauses">Of it, planned pauses: treating water, waiting for one another.</param>
    /// <param name="Moving">Of it, in motion.</param>
    /// <param name="WaterL">Water in hand at the place, the typical run [L].</param>
    /// <param name="Steps">Steps up to the place.</param>
    /// <param name="Conditions">Weather, carried mass, darkness and hours before that the plan counted with, by the number of the step.</param>
    internal sealed record Expected(TimeSpan Clock, TimeSpan Pauses, TimeSpan Moving, double WaterL, TrailStep[] Steps, Func<int, StepConditions> Conditions);

    /// <summary>What the plan expected up to a place on the route.</summary>
    internal Expected SoFar(double alongM)
    {
        int count = Math.Clamp(_course.StepEndingAt(alongM) + 1, 1, _course.Steps.Length), section = SectionAt(_course.EndM[count - 1]);
        double moving = 0, standing = 0;
        for (int j = 0; j <= section; j++)
        {
            moving += _trace.MoveSec[j];
            standing += _trace.StandSec[j];
        }

        // The place may lie within a section: the rest of the section is taken off by length.
        double fromM = section == 0 ? 0 : _model.SectionEndM(section - 1), over = (_model.SectionEndM(section) - _course.EndM[count - 1]) / (_model.SectionEndM(section) - fromM);
        double clock = _trace.ClockSec[section], pauses = Math.Max(0, clock - moving - standing);
        moving -= over * _trace.MoveSec[section];
        clock -= over * (_trace.MoveSec[section] + _trace.StandSec[section]);

        // From the typical run to the middle of the samples, as it is told at the stations: by their ratio there, linear between them.
        double ratio = MiddleOverTypical(clock);
        return new Expected(
            TimeSpan.FromSeconds(clock * ratio), TimeSpan.FromSeconds(pauses), TimeSpan.FromSeconds(moving * ratio), _trace.WaterL[SectionAt(_course.EndM[count - 1])], _course.Steps[..count], ConditionsOf);
    }

    private double MiddleOverTypical(double clockSec)
    {
        double beforeSec = 0, before = double.NaN;
        for (int k = 0; k < _course.Stations.Count - 1; k++)
        {
            double at = _middle.ArrivalSec[k], here = _spread.Quantile(k, 0.5) / at;
            if (at >= clockSec)
            {
                return double.IsNaN(before) ? here : before + ((here - before) * (clockSec - beforeSec) / Math.Max(1e-9, at - beforeSec));
            }

            (beforeSec, before) = (at, here);
        }

        return double.IsNaN(before) ? 1 : before;
    }

    private StepConditions ConditionsOf(int step)
    {
        int j = _model.SectionOfStep(step);
        return new StepConditions
        {
            Weather = _model.Weather.Known(_request.Start.AddSeconds(_trace.ClockSec[j] - ((_trace.MoveSec[j] + _trace.StandSec[j]) / 2)), _course.Places[step]),
            Carried = Mass.FromKilograms(Math.Clamp(_trace.CarriedKg[j], 0, 60)),
            ByLamp = _trace.Dark[j],
            MovingBefore = _request.Options.MovedBefore,
        };
    }

    /// <summary>Today's shared factor from the time that the way so far has taken, against what the plan expected of it: wind, heat, height, load and darkness are in both.</summary>
    /// <param name="model">The model of the plan without an earlier update of today.</param>
    /// <param name="expected">What the plan expected.</param>
    /// <param name="elapsed">Since the start.</param>
    /// <param name="stopped">Stood still, planned pauses included; null: as planned.</param>
    /// <param name="leg">Name of the leg.</param>
    internal static (PaceUpdate Update, TimedLeg Leg) Learn(PaceModel model, Expected expected, TimeSpan elapsed, TimeSpan? stopped, string leg)
    {
        // Pauses as planned, and what else is stood in the planned share of the rest; early news cannot have had all pauses.
        TimeSpan pauses = expected.Pauses < elapsed / 2 ? expected.Pauses : expected.Pauses * (elapsed / expected.Clock);
        TimeSpan moving = stopped is { } s ? elapsed - s : (elapsed - pauses) * (expected.Moving / (expected.Clock - expected.Pauses));
        double modelSec = new LegPhysics(model, new TimedLeg(leg, expected.Steps, moving), expected.Conditions, TimeSpan.Zero).TotalS;

        // What the plan's pass rounds (load and darkness by sections, the middle of the samples) is no news of the rider.
        double asModel = modelSec / expected.Moving.TotalSeconds;
        PaceUpdate update = PaceUpdate.Of(model, [new TimedLeg(leg, expected.Steps, moving * asModel)], _ => expected.Conditions);
        return (update, new TimedLeg(leg, expected.Steps, moving, elapsed - moving));
    }
}
