using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Cut-offs at checkpoints, release of the people there, and punctures to expect.</summary>
/// <remarks>A field's times are taken as log-normal about those of its middle rider. Thread-safe; a pure function of its arguments.</remarks>
[Entry(NoOutsideCheck = "quantile of a log-normal field, a product of counts; checked against their closed forms")]
public static class EventPlanner
{
    /// <summary>Plans an event.</summary>
    /// <param name="request">Waves, field and checkpoints.</param>
    /// <param name="terrain">As in <see cref="RidePlanner.Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="ArgumentException">No wave, an empty wave, a checkpoint off the route, or a route without length or heights.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static EventPlan Plan(EventRequest request, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        if (request.Waves.Count == 0 || request.Waves.Any(w => w.Riders < 1))
        {
            throw new ArgumentException("At least one wave with at least one rider is needed.", nameof(request));
        }

        EventWave[] waves = [.. request.Waves.OrderBy(w => w.Start)];
        Length length = request.MiddleRider.Route.Length;
        var points = new List<EventCheckpoint>();
        foreach (EventCheckpoint c in request.Checkpoints.OrderBy(c => c.AlongRoute.Meters))
        {
            if (c.AlongRoute.Meters <= 0 || c.AlongRoute.Meters > length.Meters + 200)
            {
                throw new ArgumentException($"The checkpoint '{c.Name}' at km {Text.F(c.AlongRoute.Kilometers, 1)} must lie on the route, beyond the start and within {Text.F(length.Kilometers, 1)} km.", nameof(request));
            }

            points.Add(c);
        }

        if (points.Count == 0 || points[^1].AlongRoute.Meters < length.Meters - 200)
        {
            points.Add(new EventCheckpoint("finish", length));
        }

        // Each checkpoint is a station, by a clock that never closes.
        RideRequest middle = request.MiddleRider with
        {
            Start = waves[0].Start,
            Deadlines = [.. request.MiddleRider.Deadlines, .. points.Select(c => new Deadline(DeadlineKind.Other, c.Name, Clamp(c.AlongRoute), Clamp(c.AlongRoute), closes: null))],
        };
        RidePlan plan = RidePlanner.Plan(middle, terrain, cancel);
        if (plan.Verdict.Kind == PlanVerdictKind.Refused)
        {
            throw new ArgumentException(plan.Verdict.Sentence, nameof(request));
        }

        double sigma = Math.Log(request.FieldGsdFactor), slow = Math.Exp(sigma * NormalKernel.Quantile(request.ThroughProbability)), fast = Math.Exp(-sigma * NormalKernel.Quantile(request.ThroughProbability));
        ZoneOffsets zone = plan.Zone;
        EventCutOff[] cuts = [.. points.Select(c =>
        {
            TimeSpan time = plan.Stations.MinBy(s => Math.Abs(s.AlongRoute.Meters - c.AlongRoute.Meters))!.Arrival.Typical - plan.Start;
            (string, DateTimeOffset)[] by = [.. waves.Select(w => (w.Name, zone.ToLocal(w.Start + (time * slow))))];
            return new EventCutOff(c.Name, c.AlongRoute, zone.ToLocal(waves[0].Start + (time * fast)), by, by.Max(x => x.Item2));
        })];
        int riders = waves.Sum(w => w.Riders);
        return new EventPlan
        {
            Title = plan.Title,
            Zone = zone,
            Riders = riders,
            Checkpoints = cuts,
            ExpectedPuncturesFactor = riders * length.Meters * request.Punctures.PerDistance.Typical.InverseMeters,
            MiddleTime = plan.Finish!.Typical - plan.Start,
            Papers = request.Papers,
            Plan = plan,
        };

        Length Clamp(Length at) => Length.FromMeters(Math.Min(at.Meters, length.Meters));
    }
}
