using SoloRide.Hydration;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Where to fill and how much, for one model: the demand of each leg at the confidence asked for, then the carry planner.</summary>
internal sealed class WaterPlan
{
    /// <summary>Water is counted to a tenth of a litre: a shortage below half of that is none [L].</summary>
    public const double CountedToL = 0.05;

    /// <summary>Samples that size what is carried: as many as judge the plan, within these.</summary>
    private const int LeastPilot = 512, MostPilot = 2048;

    private const int MostAgain = 5;

    /// <summary>The plan is sized to keep the reserve within this [L], half of what counts.</summary>
    private const double SizedToL = CountedToL / 2;

    private WaterPlan(WaterCarryPlan carry, double startL, double[] fillToL, double[] treatSecPerL, double needL)
    {
        Carry = carry;
        StartL = startL;
        FillToL = fillToL;
        TreatSecPerL = treatSecPerL;
        NeedL = needL;
    }

    public WaterCarryPlan Carry { get; }

    public double StartL { get; }

    public double[] FillToL { get; }

    public double[] TreatSecPerL { get; }

    /// <summary>Typical planned intake over the whole ride [L].</summary>
    public double NeedL { get; }

    /// <summary>Whether the bottles are filled at every source that has water, not only where the carry planner says.</summary>
    public bool Everywhere { get; private init; }

    /// <summary>The same without a reserve: what trouble is judged with, so that a larger reserve never makes it look better.</summary>
    public WaterPlan Bare { get; private set; } = null!;

    public bool Enough => Carry.State != WaterCarryState.Insufficient;

    public static WaterPlan Of(RideModel model, CancellationToken cancel)
    {
        SimulationInput input = model.Input;
        RideRequest request = model.Request;
        var trace = new SectionTrace(input.Sections);
        int fills = input.FillToL.Length;
        double capacity = request.Load.WaterCapacity.Liters;

        // What would be drunk if water were always at hand, with half the bottles full as the mean load.
        var full = new double[fills];
        Array.Fill(full, capacity);
        SimulationKernel.Middle(model.WithWater(capacity / 2, full, new double[fills]), _ => true, trace);
        var sources = new List<WaterSource>();
        var used = new HashSet<string>(StringComparer.Ordinal);
        for (int f = 0; f < fills; f++)
        {
            WaterSource s = request.Sources[input.SourceOf[f]];
            int station = model.FillStations[f];
            int step = model.Course.StepOfStation[station + 1];

            // Several sources of one name are told apart by their place, passes of one source by their number.
            bool several = request.Sources.Count(x => x.Name == s.Name) > 1;
            string stem = several ? $"{s.Name} (km {Text.F(model.Course.EndM[step] / 1000, 1)})" : s.Name, name = stem;
            for (int again = 2; !used.Add(name); again++)
            {
                name = several ? $"{stem}, {Text.F(again, 0)}" : $"{stem} (pass {Text.F(again, 0)})";
            }

            sources.Add(s with { Name = name, PassOf = input.SourceOf.Count(o => o == input.SourceOf[f]) > 1 ? s.Name : null, AlongRoute = Length.FromMeters(model.Course.EndM[step]) });
        }

        double total = trace.WantL[^1], k = Spread(model, input, capacity, full, total, cancel);
        WaterPlan plan = Solve(request.Options.WaterReserve.Liters);
        WaterPlan bare = request.Options.WaterReserve > Volume.Zero ? Solve(0) : plan;

        // Thirst, a dry source and a slow day come together: the places stay the planner's, the amounts move until just the reserve is left at the level.
        if (request.Options.Samples > 0 && request.StartWater is null && plan.Enough && total > 0)
        {
            WaterPlan first = plan;
            WaterPlan? best = null;
            double moreL = 0, lackL = 0;
            for (int again = 0; again <= MostAgain; again++)
            {
                lackL = Lack(model, plan, cancel);
                if (lackL <= SizedToL)
                {
                    best = best is null || plan.StartL < best.StartL ? plan : best;
                    if (lackL >= -SizedToL)
                    {
                        break;
                    }
                }
                else if (plan.StartL >= capacity && plan.FillToL.Zip(first.FillToL).All(x => x.Second <= 0 || x.First >= capacity))
                {
                    break;
                }

                moreL += lackL;
                plan = first.With(moreL, capacity);
            }

            if (best is null)
            {
                // The bottles do not hold it at those places: filled wherever there is water.
                WaterPlan all = Everything(first.Carry);
                plan = Lack(model, all, cancel) < lackL ? all : plan;
            }
            else
            {
                plan = best;
            }
        }

        plan.Bare = bare;
        return plan;

        WaterPlan Solve(double reserveL)
        {
            var demand = new List<WaterDemand>();
            double fromM = 0, fromL = 0;
            for (int j = 0; j < input.Sections; j++)
            {
                if (input.StationAt[j] < 0)
                {
                    continue;
                }

                double toM = model.SectionEndM(j), need = trace.WantL[j] - fromL;
                demand.Add(new WaterDemand(Length.FromMeters(fromM), Length.FromMeters(toM), Estimate.Of(Volume.FromLiters(need), Volume.FromLiters(need / k), Volume.FromLiters(Math.Min(100, need * k)))));
                fromM = toM;
                fromL = trace.WantL[j];
            }

            WaterCarryPlan carry = WaterCarryPlanner.Plan(
                new WaterCarryRequest
                {
                    Demand = demand,
                    Sources = sources,
                    Capacity = request.Load.WaterCapacity,
                    Reserve = Volume.FromLiters(Math.Min(reserveL, 0.5 * capacity)),
                    MaxRunDryProbability = request.Options.DryProbability,
                    DemandQuantileLevel = request.Options.ConfidenceLevel,
                    Date = DateOnly.FromDateTime(model.Zone.ToLocal(model.Start).DateTime),
                    Treatment = request.Treatment,
                },
                cancel);

            var fillTo = new double[fills];
            var treat = new double[fills];
            double start = capacity;
            if (carry.State != WaterCarryState.Insufficient)
            {
                start = carry.CarryFromStart.Liters;
                for (int f = 0; f < fills; f++)
                {
                    // Stops at one place are joined by the planner under a joint name.
                    WaterStop? stop = carry.Stops.Skip(1).FirstOrDefault(s => s.Name.Split(" / ").Contains(sources[f].Name));
                    if (stop is { IsFill: true })
                    {
                        fillTo[f] = stop.FillTo.Liters;
                        treat[f] = stop.TreatmentTime is { } t && stop.MostTaken.Liters > 0.01 ? t.Typical.TotalSeconds / stop.MostTaken.Liters : 0;
                    }
                }
            }

            // Bottles too small for the planner's answer, or already filled otherwise than it would: they are filled wherever there is water.
            return carry.State == WaterCarryState.Insufficient || request.StartWater is not null
                ? Everything(carry)
                : new WaterPlan(carry, start, fillTo, treat, total);
        }

        WaterPlan Everything(WaterCarryPlan carry)
        {
            double[] fillTo = new double[fills], treat = new double[fills];
            for (int f = 0; f < fills; f++)
            {
                fillTo[f] = capacity;
                double takenL = Math.Min(capacity, sources[f].Amount?.Liters ?? capacity), heightM = model.Course.PlaceAt(sources[f].AlongRoute!.Value.Meters).ElevationM;
                treat[f] = sources[f].NeedsTreatment && takenL > 0.01 && request.Treatment?.Time(Volume.FromLiters(takenL), Length.FromMeters(double.IsNaN(heightM) ? 0 : heightM)) is { } t ? t.Typical.TotalSeconds / takenL : 0;
            }

            return new WaterPlan(carry, request.StartWater?.Liters ?? capacity, fillTo, treat, total) { Everywhere = true };
        }
    }

    /// <summary>So much more, or less, at the start and at every place that the plan fills at; no more than the bottles hold.</summary>
    private WaterPlan With(double moreL, double capacityL)
        => new(Carry, Math.Clamp(StartL + moreL, 0, capacityL), [.. FillToL.Select(x => x > 0 ? Math.Clamp(x + moreL, 0.01, capacityL) : 0)], TreatSecPerL, NeedL);

    /// <summary>How far the reserve is broken into at the level, over the draws of the pilot [L].</summary>
    private static double Lack(RideModel model, WaterPlan plan, CancellationToken cancel)
    {
        PlanOptions options = model.Request.Options;
        SimulationResult pilot = SimulationKernel.Run(model.WithWater(plan.StartL, plan.FillToL, plan.TreatSecPerL), Math.Min(options.Samples, MostPilot), options.Seed, options.Threads, cancel);
        double[] left = [.. pilot.LeastWaterL.Select((w, i) => w - pilot.ShortWaterL[i])];
        Array.Sort(left);
        return options.WaterReserve.Liters - QuantileKernel.OfSorted(left, 1 - options.ConfidenceLevel);
    }

    private static int Pilot(PlanOptions options) => Math.Clamp(options.Samples, LeastPilot, MostPilot);

    /// <summary>P90 of the whole ride's want over that of the typical run: from a few samples with water always at hand, else by a closed form.</summary>
    private static double Spread(RideModel model, SimulationInput input, double capacityL, double[] full, double typicalL, CancellationToken cancel)
    {
        PlanOptions options = model.Request.Options;
        if (options.Samples > 0)
        {
            SimulationResult pilot = SimulationKernel.Run(model.WithWater(capacityL / 2, full, new double[full.Length]), Pilot(options), options.Seed, options.Threads, cancel);
            double[] want = [.. pilot.DrunkL.Select((d, i) => d + pilot.ShortWaterL[i])];
            Array.Sort(want);
            return typicalL > 0 ? Math.Max(1, QuantileKernel.OfSorted(want, 0.9) / typicalL) : 1;
        }

        double warm = input.SweatLph.Sum() > 0 ? Math.Log(Math.Max(1e-9, input.SweatWarmLph.Sum()) / input.SweatLph.Sum()) / input.WarmerK : 0;
        double sweat = input.SweatLogSd(1);
        double sigma = Math.Sqrt((sweat * sweat) + (input.SharedSigma * input.SharedSigma) + (warm * input.TemperatureSigmaK * warm * input.TemperatureSigmaK));
        return Math.Exp(NormalKernel.Z90 * sigma);
    }
}
