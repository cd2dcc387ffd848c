using SoloRide.Batteries;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Plans a ride of several days: camps so that the largest day is least, then each day in full with what the days before leave it.</summary>
/// <remarks>
/// <para>Load falls with the food eaten and rises where food is had; charge goes down by day and up at camps with mains or from the bank; a camp that
/// is not known to have water is reached with water for the night and for the way to the next source.</para>
/// <para>The samples of all days share what rider and weather share (pace, surface classes, stops, sweat, air); legs, incidents and sources are drawn anew each day.</para>
/// <para>A day that ends so late (at the plan's confidence) that the night would be short moves the start of the next.</para>
/// <para>A pure function of its request. Thread-safe. A planning aid, not a guarantee.</para>
/// </remarks>
[Entry(NoOutsideCheck = "joins stages and day plans; stages are proved against exhaustive search, days are plans of the planner")]
public static class TripPlanner
{
    private const double WaterKgPerL = 1;
    private const double LongestDayHours = 24;

    /// <summary>Plans a trip.</summary>
    /// <param name="request">The trip.</param>
    /// <param name="terrain">Heights of the ground, for routes that carry none.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plan; without a possible split or without heights it has no days and says why.</returns>
    /// <exception cref="ArgumentException">As <see cref="StagePlanner.Split"/> and <see cref="RidePlanner.Plan"/>; food and load above 60 kg on the bike.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static TripPlan Plan(TripRequest request, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        RideRequest ride = Guard.NotNull(request).Ride;
        var findings = new List<Finding>();
        ZoneOffsets zone = RidePlanner.ClockOf(ride);
        RideCourse whole = RideCourse.Of(ride, terrain, []) ?? throw new ArgumentException($"The route '{ride.Route.Name}' has no length.", nameof(request));
        string title = ride.Title.Length > 0 ? ride.Title : ride.Route.Name.Length > 0 ? ride.Route.Name : "Ride";
        if (!whole.Profile.HasHeights)
        {
            findings.Add(new Finding(PlanningFindingCodes.NoHeights, FindingSeverity.Refusal, "Route", "Neither the route nor a terrain gives heights: days cannot be planned honestly."));
            return None(title, findings);
        }

        PaceModel pace = PaceModel.For(ride.Rider, ride.Bike, ride.Load, ride.Pace);
        double stops = ride.Pace.Calibration?.StopMinutesPerHour / 60 ?? ride.Pace.Stops.MinutesPerHour / 60;
        var passes = new Dictionary<(int, int), (RidePace Pace, TimeSpan Effort)>();
        StagePlan stages = StagePlanner.Split(Length.FromMeters(whole.TotalM), request.Days, request.Camps, (a, b) => Pass(a, b).Effort, waterNeeded: false);
        findings.AddRange(stages.Findings);
        if (stages.Stages.Count == 0)
        {
            return None(title, findings);
        }

        Stage[] days = [.. stages.Stages];
        (double[] foodKg, double[] foodKcal, double[] campKg) = Food(ride, days.Select(s => Pass(s.From, s.To)).ToArray());
        (WalkOutProfile? walk, _) = PlanBuilder.WalkOf(whole, pace);
        var starts = new DateTimeOffset[days.Length];
        for (int d = 0; d < days.Length; d++)
        {
            starts[d] = StartOf(request, ride, zone, d);
        }

        // A late day moves the next start, and water brought to a dry camp is for the day as it then runs: run again with the starts found.
        DateTimeOffset[] asked = [.. starts];
        List<Finding> ofStages = [.. findings];
        var requests = new RideRequest[days.Length];
        var result = new TripDay[days.Length];
        var samples = new SimulationResult?[days.Length];
        for (int pass = 0; ; pass++)
        {
            DateTimeOffset[] before = [.. starts];
            findings = [.. ofStages];
            Run();
            if (pass + 1 >= days.Length || !days.Any(s => s.Camp is { Water: not Known.Yes }) || before.SequenceEqual(starts))
            {
                break;
            }
        }

        return new TripPlan
        {
            Title = title,
            Days = result,
            LargestDay = stages.Largest,
            Moving = Moving(result, samples),
            Verdict = result.Max(x => x.Plan.Verdict.Kind),
            Findings = [.. findings.Distinct().OrderByDescending(f => f.Severity).ThenBy(f => f.Code, StringComparer.Ordinal).ThenBy(f => f.Subject, StringComparer.Ordinal)],
        };

        void Run()
        {
            for (int d = 0; d < days.Length; d++)
            {
                double later = campKg[d];
                for (int k = d + 1; k < days.Length && days[k - 1].Camp?.Food != Known.Yes; k++)
                {
                    later += foodKg[k];
                }

                requests[d] = Day(ride, whole, zone, days, d, title, later, starts[d]);
            }

            // From the last day back: what the morning at a camp without known water needs is brought by the day before.
            var bring = new Volume?[days.Length];
            for (int d = days.Length - 1; d >= 0; d--)
            {
                if (days[d].Camp is { Water: not Known.Yes })
                {
                    RidePlan next = RidePlanner.Part(requests[d + 1] with { Options = requests[d + 1].Options with { Samples = 0 } }, walk, days[d + 1].From.Meters, terrain, cancel).Plan;
                    double litres = request.CampWater.Liters + (next.Needs?.Fills[0].FillTo.Liters ?? 0);
                    bring[d] = Volume.FromLiters(litres);
                    requests[d] = requests[d] with { Options = requests[d].Options with { WaterReserve = Volume.FromLiters(Math.Min(10, Math.Max(ride.Options.WaterReserve.Liters, litres))) } };
                    if (litres > 10)
                    {
                        findings.Add(new Finding(PlanningFindingCodes.CampDry, FindingSeverity.Warning, days[d].Camp!.Name, $"No known water, and {Text.F(litres, 1)} L would have to be brought: choose another camp, or put a cache there."));
                    }
                }
            }

            double[] charge = [.. ride.Devices.Select(x => x.StartChargeFraction)];
            double bank = ride.Bank?.StartChargeFraction ?? 0;
            for (int d = 0; d < days.Length; d++)
            {
                cancel.ThrowIfCancellationRequested();
                RideRequest r = requests[d] with
                {
                    Start = starts[d],
                    Devices = [.. ride.Devices.Select((x, i) => x with { StartChargeFraction = charge[i], IdleSince = d == 0 ? x.IdleSince : TimeSpan.Zero })],
                    Bank = ride.Bank is { } b ? b with { StartChargeFraction = bank, IdleSince = d == 0 ? b.IdleSince : TimeSpan.Zero } : null,
                };
                var at = ride.Devices.Select((x, i) => new DeviceCharge(x.Name, Ratio.FromDecimalFractions(charge[i]))).ToList();
                if (ride.Bank is { } carried)
                {
                    at.Add(new DeviceCharge(carried.Name, Ratio.FromDecimalFractions(bank)));
                }

                (RidePlan plan, samples[d]) = RidePlanner.Part(r, walk, days[d].From.Meters, terrain, cancel);
                double food = foodKg[d];
                for (int k = d + 1; k < days.Length && days[k - 1].Camp?.Food != Known.Yes; k++)
                {
                    food += foodKg[k];
                }

                Volume water = plan.Needs?.Fills[0].FillTo ?? Volume.Zero;
                DateTimeOffset late = Late(plan, samples[d], ride.Options.ConfidenceLevel);
                DateTimeOffset? tomorrow = null;
                if (d + 1 < days.Length)
                {
                    TimeSpan night = starts[d + 1] - late;
                    if (night < request.LeastRest)
                    {
                        // To the full minute after, as clocks are read.
                        DateTimeOffset rested = late + request.LeastRest;
                        starts[d + 1] = zone.ToLocal(new DateTimeOffset((rested.UtcTicks + TimeSpan.TicksPerMinute - 1) / TimeSpan.TicksPerMinute * TimeSpan.TicksPerMinute, TimeSpan.Zero));
                    }

                    tomorrow = starts[d + 1];
                    if (starts[d + 1] > asked[d + 1])
                    {
                        TimeSpan left = asked[d + 1] - late;
                        findings.Add(new Finding(
                            PlanningFindingCodes.RestShort, FindingSeverity.Warning, $"Day {d + 1}",
                            $"A late arrival ({PlanText.ClockOn(zone.ToLocal(late), plan.Start)}) {(left > TimeSpan.Zero ? $"leaves {Text.Span(left)} until" : "comes after")} the next start at {Text.Clock(zone.ToLocal(asked[d + 1]))}; {Text.Span(request.LeastRest)} of rest are asked for, so day {d + 2} starts at {PlanText.ClockOn(zone.ToLocal(starts[d + 1]), asked[d + 1])}. Or split otherwise.",
                            new FindingValue("moved_s", Text.F((starts[d + 1] - asked[d + 1]).TotalSeconds, 0))));
                    }
                }

                TimeSpan? rest = tomorrow is { } t ? t - late : null;
                Temperature? low = days[d].Camp is { } camp ? camp.NightLow ?? Low(ride, whole, camp, late, tomorrow!.Value) : null;
                bool cold = low is { } l && request.SleepingLimit is { } limit && l.DegreesCelsius < limit.DegreesCelsius;
                Night(request, days[d].Camp, low, cold, findings);
                SolarDay sun = SolarDay.On(DateOnly.FromDateTime(plan.Start.DateTime), plan.Stations[0].Place, zone);
                result[d] = new TripDay
                {
                    Number = d + 1,
                    Stage = days[d],
                    Plan = plan,
                    Daylight = sun.CivilDawn.At is { } dawn && sun.CivilDusk.At is { } dusk && dusk > dawn ? dusk - dawn : null,
                    Carried = Mass.FromKilograms(ride.Load.OnBody.Kilograms + ride.Load.OnBike.Kilograms + food + (water.Liters * WaterKgPerL)),
                    FoodCarried = Mass.FromKilograms(food),
                    Food = Energy.FromKilocalories(foodKcal[d]),
                    WaterAtStart = water,
                    BringToCamp = bring[d],
                    ChargeAtStart = at,
                    StartMoved = starts[d] - asked[d],
                    Rest = rest,
                    NightLow = low,
                    TooCold = cold,
                };
                (charge, bank) = Evening(ride, plan, charge, bank, days[d].Camp);
            }
        }

        (RidePace Pace, TimeSpan Effort) Pass(Length a, Length b)
        {
            // Each day begins fresh: no fade of the day before.
            int from = whole.StepEndingAt(a.Meters) + 1, to = whole.StepEndingAt(b.Meters) + 1;
            if (!passes.TryGetValue((from, to), out (RidePace, TimeSpan) pass))
            {
                cancel.ThrowIfCancellationRequested();
                RidePace p = pace.Along(whole.Steps[from..Math.Max(from + 1, to)], (_, _) => StepConditions.Default, cancel);
                pass = (p, p.Moving.Typical * (1 + stops));
                passes[(from, to)] = pass;
            }

            return pass;
        }
    }

    private static TripPlan None(string title, List<Finding> findings) => new() { Title = title, Days = [], LargestDay = TimeSpan.Zero, Verdict = PlanVerdictKind.Refused, Findings = findings };

    /// <summary>Start of a day by the clock of the place.</summary>
    private static DateTimeOffset StartOf(TripRequest request, RideRequest ride, ZoneOffsets zone, int d)
    {
        if (d == 0)
        {
            return ride.Start;
        }

        DateTimeOffset first = zone.ToLocal(ride.Start);
        DateTime wall = DateOnly.FromDateTime(first.DateTime).AddDays(d).ToDateTime(request.LaterStart ?? TimeOnly.FromDateTime(first.DateTime));
        return new DateTimeOffset(wall, zone.OffsetAt(new DateTimeOffset(wall, zone.OffsetAt(ride.Start.AddDays(d)))));
    }

    private static RideRequest Day(RideRequest ride, RideCourse whole, ZoneOffsets zone, Stage[] days, int d, string title, double laterKg, DateTimeOffset start)
    {
        double from = days[d].From.Meters, to = days[d].To.Meters;
        bool last = d == days.Length - 1;
        var exits = whole.Exits.Where(e => e.AlongRoute is not { } a || In(a.Meters)).Select(e => e.AlongRoute is { } a ? e with { Place = null, AlongRoute = Shift(a.Meters) } : e).ToList();
        return ride with
        {
            Route = whole.Route.Part(days[d].From, Length.FromMeters(Math.Min(to, whole.Route.Length.Meters))),
            Title = $"{title}, day {d + 1} of {days.Length}",
            Start = start,
            Zone = ride.Zone is null ? null : zone,
            Load = ride.Load with { OnBike = Mass.FromKilograms(ride.Load.OnBike.Kilograms + laterKg) },
            Sources = [.. ride.Sources.SelectMany(s => Along(s.Place, s.AlongRoute, whole).Where(m => In(m) && (last || m < to)).Select(m => s with { Place = null, AlongRoute = Shift(m) }))],
            Exits = exits,
            EndsAreExits = false,
            StartWater = d == 0 ? ride.StartWater : null,
            Deadlines = [.. ride.Deadlines.Where(x => x.To.Meters > from && x.From.Meters < to).Select(x => new Deadline(x.Kind, x.Name, Shift(Math.Max(from, x.From.Meters)), Shift(Math.Min(to, x.To.Meters)), x.Closes, x.Opens))],
            Options = ride.Options with { Day = d },
        };

        bool In(double m) => m >= from && m <= to;
        Length Shift(double m) => Length.FromMeters(Math.Max(0, m - from));
    }

    private static IEnumerable<double> Along(GeoPoint? place, Length? along, RideCourse whole)
    {
        if (along is { } a)
        {
            return [a.Meters];
        }

        return place is { } p && whole.Route.Nearest(p) is { } pass && pass.Offset.Meters <= RideCourse.OffRouteM ? whole.Route.Project(p).Select(x => x.DistanceAlong.Meters) : [];
    }

    private static (double[] Kg, double[] Kcal, double[] CampKg) Food(RideRequest ride, (RidePace Pace, TimeSpan Effort)[] passes)
    {
        FoodPlan plan = FoodPlanner.Plan(new FoodRequest
        {
            Rider = ride.Rider,
            Days = [.. passes.Select(p =>
            {
                var elapsed = TimeSpan.FromHours(Math.Min(LongestDayHours, p.Effort.TotalHours));
                TimeSpan moving = p.Pace.Moving.Typical < elapsed ? p.Pace.Moving.Typical : elapsed;
                return new FoodDay(elapsed, moving, Energy.FromJoules(Math.Min(1e8, p.Pace.MetabolicEnergy.Typical.Joules)));
            })],
            WholeDays = passes.Length > 1,
            ReserveFor = TimeSpan.Zero,
        });
        double perKcal = plan.EatEnergy.Kilocalories > 0 ? plan.Eat.Sum(p => p.Mass.Kilograms) / plan.EatEnergy.Kilocalories : 0;
        double[] camp = [.. plan.Days.Select(x => x.AtCamp.Kilocalories)];
        double[] kcal = [.. plan.Days.Select((x, i) => x.Eaten.Kilocalories + camp[i])];
        return ([.. kcal.Select(k => k * perKcal)], kcal, [.. camp.Select(k => k * perKcal)]);
    }

    private static DateTimeOffset Late(RidePlan plan, SimulationResult? samples, double level)
    {
        if (samples is null)
        {
            return plan.LateFinish ?? plan.Finish!.High;
        }

        double[] sorted = (double[])samples.FinishSec.Clone();
        Array.Sort(sorted);
        return plan.Start.AddSeconds(QuantileKernel.OfSorted(sorted, level));
    }

    private static Temperature? Low(RideRequest ride, RideCourse whole, Camp camp, DateTimeOffset from, DateTimeOffset to)
    {
        if (ride.Weather is not { } forecast)
        {
            return null;
        }

        GeoPoint place = whole.PlaceAt(camp.AlongRoute.Meters);
        double low = double.PositiveInfinity;
        for (DateTimeOffset t = from < to ? from : to; t <= to; t = t.AddMinutes(30))
        {
            WeatherAtRider w = forecast.At(t, place);
            if (!w.Covered || double.IsNaN(w.Weather.AirTempC))
            {
                return null;
            }

            low = Math.Min(low, w.Weather.AirTempC);
        }

        return Temperature.FromDegreesCelsius(low);
    }

    private static void Night(TripRequest request, Camp? camp, Temperature? low, bool cold, List<Finding> findings)
    {
        if (camp is null)
        {
            return;
        }

        if (cold)
        {
            findings.Add(new Finding(
                PlanningFindingCodes.CampCold, FindingSeverity.Warning, camp.Name,
                $"Low {Text.F(low!.Value.DegreesCelsius, 1)} C; bag and clothing are good to {Text.F(request.SleepingLimit!.Value.DegreesCelsius, 1)} C. Sleep lower, take more to sleep in, or ride on another day.",
                new FindingValue("low_c", Text.F(low.Value.DegreesCelsius, 1))));
        }
        else if (low is null || request.SleepingLimit is null)
        {
            findings.Add(new Finding(PlanningFindingCodes.NightUnknown, FindingSeverity.Caution, camp.Name, low is null ? "The low of the night is not known: the cold is not judged." : "What bag and clothing are good for is not given: the cold is not judged."));
        }
    }

    /// <summary>Charge in the morning: mains fill everything; else the bank fills devices in their order of safety as far as it goes.</summary>
    private static (double[] Charge, double Bank) Evening(RideRequest ride, RidePlan plan, double[] charge, double bank, Camp? camp)
    {
        double[] left = [.. ride.Devices.Select((x, i) => plan.Devices.FirstOrDefault(o => o.Name == x.Name) is { } o ? Math.Clamp(o.AtFinish.Typical.DecimalFractions, 0, 1) : charge[i])];
        if (camp?.Mains == Known.Yes)
        {
            return ([.. ride.Devices.Select((x, i) => x.TopUp == TopUpRule.Never ? left[i] : 1.0)], ride.Bank is null ? 0 : 1);
        }

        if (ride.Bank is not { } carried || plan.PowerPlan is not { BankAtPort: { } port })
        {
            return (left, bank);
        }

        double full = port.Typical.WattHours;
        double portWh = Math.Max(0, full - plan.PowerPlan.TopUps.Sum(t => t.IntoCell.WattHours / (ride.Devices.FirstOrDefault(x => x.Name == t.Device)?.ChargingEfficiencyFraction ?? 1)));
        foreach (int i in Enumerable.Range(0, left.Length).Where(i => ride.Devices[i].TopUp != TopUpRule.Never).OrderBy(i => ride.Devices[i].Order).ThenBy(i => i))
        {
            Device x = ride.Devices[i];
            double want = (1 - left[i]) * x.Pack.FullWh / x.ChargingEfficiencyFraction;
            double give = Math.Min(want, portWh);
            left[i] = want > 0 ? left[i] + ((1 - left[i]) * give / want) : left[i];
            portWh -= give;
        }

        // What is left at the port, as a share of what a full bank gives there.
        double whole = full > 0 && bank > 0 ? full / bank : 0;
        _ = carried;
        return (left, whole > 0 ? Math.Clamp(portWh / whole, 0, 1) : 0);
    }

    private static Estimate<TimeSpan> Moving(TripDay[] days, SimulationResult?[] samples)
    {
        if (samples.Any(s => s is null))
        {
            // Days that share their factor: quantiles add.
            return Estimate.Of(Sum(e => e.Typical), Sum(e => e.Low), Sum(e => e.High));
        }

        double[] sum = new double[samples[0]!.Samples];
        foreach (SimulationResult? s in samples)
        {
            for (int i = 0; i < sum.Length; i++)
            {
                sum[i] += s!.MovingSec[i];
            }
        }

        Array.Sort(sum);
        return Estimate.Of(Q(0.5), Q(0.1), Q(0.9));

        TimeSpan Q(double p) => TimeSpan.FromSeconds(QuantileKernel.OfSorted(sum, p));
        TimeSpan Sum(Func<Estimate<TimeSpan>, TimeSpan> part) => days.Aggregate(TimeSpan.Zero, (t, d) => t + part(d.Plan.Moving!));
    }
}
