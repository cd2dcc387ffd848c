using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>After trouble: walk, wait or call.</content>
public static partial class RidePlanner
{
    private static readonly TimeSpan LightStep = TimeSpan.FromMinutes(10);

    /// <summary>Walk, wait or call: the ways out on foot against the wait for help, from where the rider is.</summary>
    /// <param name="request">The ride as it was planned.</param>
    /// <param name="news">What happened, where and when.</param>
    /// <param name="terrain">As in <see cref="Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The advice. It does not know the injury: in doubt call.</returns>
    /// <exception cref="ArgumentException">The place lies beyond the route, or the time before the start; or the route has no length.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static TroubleAdvice AfterTrouble(RideRequest request, TroubleNews news, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        Guard.NotNull(news);
        var findings = new List<Finding>();
        RideCourse course = RideCourse.Of(request, terrain, findings) ?? throw new ArgumentException($"The route '{request.Route.Name}' has no length.", nameof(request));
        if (news.AlongRoute.Meters > course.TotalM + 1)
        {
            throw new ArgumentException($"News is from km {Text.F(news.AlongRoute.Kilometers, 2)}; the route ends at km {Text.F(course.TotalM / 1000, 2)}.", nameof(news));
        }

        if (news.At < request.Start)
        {
            throw new ArgumentException($"News is from {Text.Clock(news.At)}; the ride starts at {Text.Clock(request.Start)}.", nameof(news));
        }

        ZoneOffsets zone = Zone(request, findings);
        news = news with { At = zone.ToLocal(news.At) };
        GeoPoint place = course.PlaceAt(news.AlongRoute.Meters);
        var weather = new WeatherAlong(request);
        List<TroubleWay> ways = news.Kind == TroubleKind.CannotMove ? [] : Ways(request, news, course, place, weather);
        WaitingPlan wait = WaitFrom(request, news, place, weather);
        bool device = request.Beacon is not null || request.Devices.Any(d => d.Kind == DeviceKind.Messenger);
        (TroubleChoice choice, string reason) = Choose(request, news, ways, wait, device, zone);
        return new TroubleAdvice
        {
            News = news,
            Zone = zone,
            Choice = choice,
            Reason = reason,
            Ways = ways,
            Wait = wait,
            CanCall = device ? Known.Yes : Known.No,
            Messages = MessagesFor(request, news, choice, ways, place),
            DarkFrom = DarkFrom(news.At, place) is { } dark ? zone.ToLocal(dark) : null,
        };
    }

    private static List<TroubleWay> Ways(RideRequest request, TroubleNews news, RideCourse course, GeoPoint place, WeatherAlong weather)
    {
        if (course.Exits.Count == 0)
        {
            return [];
        }

        PaceModel model = PaceModel.For(request.Rider, request.Bike, request.Load, request.Pace);
        EscapePace pace = news.WalkingSpeed is { } v
            ? EscapePace.FromFunction("as tried out", TravelMode.Walk, step => TimeSpan.FromSeconds(step.LengthM / v.MetersPerSecond))
            : news.Kind == TroubleKind.Injured
                ? EscapePace.FromModel(model, TravelMode.Walk, RiderCondition.InjuredLeg)
                : EscapePace.FromModel(model, TravelMode.Push);
        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = course.Steps, Exits = course.Exits, Places = course.Places });
        bool lamp = request.Devices.Any(d => d.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp) || request.KitItems.Any(i => i.Functions.Contains(Kit.KitFunction.Light));
        var ways = new List<TroubleWay>();
        foreach (BailOutOption o in graph.BailOuts(news.AlongRoute, pace).Options.OrderBy(o => o.Time.Typical).ThenBy(o => o.Exit.Name, StringComparer.Ordinal))
        {
            string name = o.Exit.Name.EndsWith(RideCourse.Again, StringComparison.Ordinal) ? o.Exit.Name[..^RideCourse.Again.Length] : o.Exit.Name;
            if (ways.Any(w => w.ExitName == name && w.Time.Typical <= o.Time.Typical))
            {
                continue;
            }

            TimeSpan dark = DarkBetween(news.At, news.At + o.Time.High, place);
            double needL = WalkWaterL(request, o.Time, WalkSweat(request, news.At + (o.Time.Typical / 2), place, weather));
            double? shortL = news.WaterInHand is { } w ? Math.Max(0, needL - w.Liters) : null;
            Known water = shortL is { } s ? s <= RationFraction * RideModel.BodyKg(request.Rider) ? Known.Yes : Known.No : Known.Unknown;
            bool light = dark <= LightStep || lamp;
            Known covered = !light || water == Known.No ? Known.No : water;
            ways.Add(new TroubleWay(name, o.Distance, o.Time, news.At + o.Time.Typical, dark, Volume.FromLiters(needL), covered) { Missing = shortL is { } l ? Volume.FromLiters(l) : null, Lit = light });
        }

        return ways;
    }

    /// <summary>Less water than a walk takes is rationed as long as the body gives no more than this share of its mass: half of the published limit, the ride before has taken some.</summary>
    [Source("acsm-2007", "half of the 2 %")]
    private const double RationFraction = 0.5 * Hydration.HydrationLimits.DeficitFraction;

    /// <summary>Water of a walk in 9 of 10 cases: one margin over time and sweat together, below what can be drunk in the time [L].</summary>
    private static double WalkWaterL(RideRequest request, Estimate<TimeSpan> time, Estimate<VolumeFlow> sweat)
    {
        double typical = sweat.Typical.LitersPerHour;
        double timeSigma = Math.Log(time.High / time.Typical) / NormalKernel.Z90, sweatSigma = typical > 0 ? Math.Log(sweat.High.LitersPerHour / typical) / NormalKernel.Z90 : 0;
        double litres = typical * request.Options.IntakeFraction * time.Typical.TotalHours * Math.Exp(NormalKernel.Z90 * double.Hypot(timeSigma, sweatSigma));
        return Math.Min(litres, Hydration.HydrationLimits.HourlyMaximumL * time.High.TotalHours);
    }

    /// <summary>Sweat on foot at the weather of the middle of the walk.</summary>
    private static Estimate<VolumeFlow> WalkSweat(RideRequest request, DateTimeOffset at, GeoPoint place, WeatherAlong weather)
    {
        double mass = RideModel.BodyKg(request.Rider);
        Weather w = weather.Filled(at, place);
        return Hydration.SweatRateEstimator.Estimate(
            new Hydration.SweatConditions
            {
                Rider = request.Rider,
                Weather = w with { AirTempC = Math.Clamp(w.AirTempC, -40, 60), RelHumidityPct = Math.Clamp(w.RelHumidityPct, 0, 100) },
                MetabolicRate = Power.FromWatts(PlanBuilder.WalkWPerKg * mass),
                ClothingClo = request.Options.ClothingClo,
            },
            request.Sweat).Rate;
    }

    private static WaitingPlan WaitFrom(RideRequest request, TroubleNews news, GeoPoint place, WeatherAlong weather)
    {
        TimeSpan response = WaitingPlanner.ResponseTime(request.Options.Response);
        Weather[] hours = [.. Enumerable.Range(0, (int)Math.Ceiling(response.TotalHours)).Select(h => weather.Filled(news.At.AddHours(h), place))];
        WaitAir air = WaitAir.Of(hours);
        TimeSpan? cold = request.WaitingOutfit is { } outfit
            ? NightOut.Through(new NightRequest { Weather = hours, Outfit = outfit, Shelter = request.WaitingShelter }).EarliestStrainLimit
            : null;
        return WaitingPlanner.Plan(
            new WaitingSituation
            {
                ColdLimit = cold,
                HeatLimit = air.HeatLimit,
                Water = news.WaterInHand,
                BodyWater = WaitAir.BodyWater(request.Rider),
                MeanAir = Temperature.FromDegreesCelsius(air.MeanC),
                BeaconLife = request.Beacon is null ? null : TimeSpan.FromHours(24),
                Air = Temperature.FromDegreesCelsius(air.ColdestC),
            },
            request.Options.Response,
            grace: request.Options.Grace,
            reaction: request.Options.Reaction);
    }

    private static (TroubleChoice Choice, string Reason) Choose(RideRequest request, TroubleNews news, List<TroubleWay> ways, WaitingPlan wait, bool device, ZoneOffsets zone)
    {
        string waiting = wait.Tolerable.Time is { } t ? $"the wait can be borne {Text.Span(t)} ({TroubleAdvice.LimitWords(wait.Tolerable.Binding!)})" : "how long the wait can be borne is not known";
        if (news.Kind == TroubleKind.CannotMove)
        {
            return (TroubleChoice.Call, $"You cannot walk; {waiting}, help is assumed to take {Text.Span(wait.Wait)}.");
        }

        TroubleWay? best = ways.FirstOrDefault(w => w.Covered == Known.Yes) ?? ways.FirstOrDefault(w => w.Covered == Known.Unknown);
        if (best is not null && (!device || best.Time.High < wait.Wait))
        {
            string water = best.Covered == Known.Unknown ? " if your water lasts" : best.Missing is { Liters: >= WaterPlan.CountedToL } l ? $"; {Text.F(l.Liters, 1)} L short of what it takes, so drink little at a time" : "";
            return (TroubleChoice.Walk, $"{best.ExitName} is {Text.Span(best.Time.Typical)} away, there {Text.Clock(zone.ToLocal(best.Arrives))}{water}; help is assumed to take {Text.Span(wait.Wait)}.");
        }

        // Neither is covered: the two shortfalls are held against each other. Body water up to the published deficit counts for both alike.
        double body = WaitAir.BodyWater(request.Rider).Liters;
        TroubleWay? least = ways.Where(w => w is { Lit: true, Missing: not null }).MinBy(w => w.Water!.Value.Liters);
        double lasts = least is null ? 0 : Math.Min(1, ((news.WaterInHand?.Liters ?? 0) + body) / least.Water!.Value.Liters);

        // Against cold a walk that is short of water still warms; where thirst or heat limits the wait it must be covered by what body and bottle give.
        if (best is null && least is not null && wait.Tolerable.Time is { } bearable && bearable < wait.Wait && lasts > bearable / wait.Wait && (wait.Tolerable.Binding == "cold" || lasts >= 1))
        {
            return (device ? TroubleChoice.CallThenWalk : TroubleChoice.Walk,
                $"{least.ExitName} is {Text.Span(least.Time.Typical)} away, there {Text.Clock(zone.ToLocal(least.Arrives))}; about {Text.F(least.Missing!.Value.Liters, 1)} L short of what the walk takes. Waiting is worse: {waiting}, help is assumed to take {Text.Span(wait.Wait)}. Rest and walk in the cool, drink little at a time{(device ? ", tell those who come where you walk" : "")}.");
        }

        string why = ways.Count == 0 ? "No way out is known" : best is null ? "No way out is covered by the water and light in hand" : "Help is assumed to come sooner than the way out takes";
        return wait.Tolerable.Time is { } borne && borne >= wait.Wait
            ? (TroubleChoice.Wait, $"{why}; {waiting}, help is assumed to take {Text.Span(wait.Wait)}.")
            : (TroubleChoice.Call, $"{why}; {waiting}, help is assumed to take {Text.Span(wait.Wait)}.");
    }

    private static List<string> MessagesFor(RideRequest request, TroubleNews news, TroubleChoice choice, List<TroubleWay> ways, GeoPoint place)
    {
        var sent = new List<string>();
        if (choice == TroubleChoice.Walk && ways.Count > 0)
        {
            TroubleWay w = ways.FirstOrDefault(x => x.Covered == Known.Yes) ?? ways.FirstOrDefault(x => x.Covered == Known.Unknown) ?? Shortest() ?? ways[0];
            DateTimeOffset late = news.At + w.Time.High;
            sent.Add(Message(MessageKind.WalkingOut, news.At, w.ExitName, $"{(news.Kind == TroubleKind.Injured ? "hurt, walking" : "bike broken, walking")}", w.Arrives, late, late + request.Options.Grace + request.Options.Reaction));
            sent.Add(Message(MessageKind.Back, w.Arrives, w.ExitName, null, null, null, null));
        }
        else if (choice == TroubleChoice.CallThenWalk && Shortest() is { } w)
        {
            string hurt = news.Kind == TroubleKind.Injured ? "hurt" : "bike broken";
            sent.Add(Message(MessageKind.Distress, news.At, null, $"{hurt}, short of water, walking to {w.ExitName}, there by {Text.Clock(w.Arrives + (w.Time.High - w.Time.Typical))}", null, null, null));
            sent.Add(Message(MessageKind.Back, w.Arrives, w.ExitName, null, null, null, null));
        }
        else
        {
            sent.Add(Message(MessageKind.Distress, news.At, null, news.Kind == TroubleKind.BikeDead ? "bike broken, cannot get out" : news.Kind == TroubleKind.Injured ? "hurt, cannot get out" : "hurt, cannot move", null, null, null));
        }

        return sent;

        TroubleWay? Shortest() => ways.Where(x => x is { Lit: true, Missing: not null }).MinBy(x => x.Water!.Value.Liters);

        string Message(MessageKind kind, DateTimeOffset at, string? where, string? what, DateTimeOffset? early, DateTimeOffset? late, DateTimeOffset? callBy) => StatusMessage.Compose(new MessageRequest
        {
            Kind = kind,
            SentAt = at,
            Position = kind == MessageKind.Back ? null : place,
            PlaceName = where,
            What = what,
            EndEarly = early,
            EndLate = late,
            CallBy = callBy,
        }).Body;
    }

    private static TimeSpan DarkBetween(DateTimeOffset from, DateTimeOffset to, GeoPoint place)
    {
        TimeSpan sum = TimeSpan.Zero;
        for (DateTimeOffset t = from; t < to; t += LightStep)
        {
            TimeSpan part = to - t < LightStep ? to - t : LightStep;
            sum += SkyLight.PhaseAt(t + (part / 2), place) >= LightPhase.NauticalTwilight ? part : TimeSpan.Zero;
        }

        return sum;
    }

    private static DateTimeOffset? DarkFrom(DateTimeOffset from, GeoPoint place)
    {
        for (DateTimeOffset t = from; t < from.AddDays(1); t += LightStep)
        {
            if (SkyLight.PhaseAt(t, place) >= LightPhase.NauticalTwilight)
            {
                return t;
            }
        }

        return null;
    }
}
