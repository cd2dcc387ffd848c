using System.Globalization;
using System.Text.Json;
using System.Text.Json.Schema;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Turns a plan into its document. Rounding: 1 s, 1 m, 0.01 L, 1 mg, 0.1 °C, 0.1 %, 1 kcal, 0.01 Wh, 1e-6°.</summary>
internal static class PlanJson
{
    public static string Write(RidePlan plan) => JsonSerializer.Serialize(Document(plan), PlanJsonContext.Default.PlanDocument) + "\n";

    public static string Write(TripPlan trip) => JsonSerializer.Serialize(Document(trip), PlanJsonContext.Default.TripPlanDocument) + "\n";

    public static string Write(GroupPlan group) => JsonSerializer.Serialize(Document(group), PlanJsonContext.Default.GroupPlanDocument) + "\n";

    /// <summary>The JSON schema of the plan of a trip.</summary>
    public static string TripSchema() => JsonSchemaExporter.GetJsonSchemaAsNode(PlanJsonContext.Default.TripPlanDocument).ToString() + "\n";

    /// <summary>The JSON schema of the plan of a group.</summary>
    public static string GroupSchema() => JsonSchemaExporter.GetJsonSchemaAsNode(PlanJsonContext.Default.GroupPlanDocument).ToString() + "\n";

    /// <summary>The JSON schema of the document.</summary>
    public static string Schema() => JsonSchemaExporter.GetJsonSchemaAsNode(PlanJsonContext.Default.PlanDocument).ToString() + "\n";

    public static PlanDocument Document(RidePlan p) => new()
    {
        Schema = PlanDocument.SchemaVersion,
        Title = p.Title,
        Start = Instant(p.Start),
        ZoneId = p.Zone.Id,
        LengthM = R(p.Length.Meters, 0),
        AscentM = p.Ascent is { } a ? Range(a, x => x.Meters, 0) : null,
        DescentM = p.Descent is { } d ? Range(d, x => x.Meters, 0) : null,
        Verdict = new VerdictDocument(p.Verdict.Kind.ToString(), p.Verdict.Sentence, p.Verdict.Reasons, R(p.ConfidenceLevel, 3)),
        Margins = [.. p.Margins.Select(m => new MarginDocument(
            m.Kind.ToString(), m.Name, R(m.AlongRoute?.Meters, 0), R(m.Time?.TotalSeconds, 0), R(m.Water?.Liters, 2), R(m.Charge?.WattHours, 2),
            R(Known(m.ShortfallProbability), 3), Math.Clamp(R(m.InHandFraction, 3), -999, 999), m.Holds, m.AfterTrouble, m.Amount))],
        LatestStart = p.LatestStart is { } ls ? Instant(p.Zone.ToLocal(ls)) : null,
        LatestStartReason = Empty(p.LatestStartReason),
        Finish = p.Finish is { } f ? Times(f, p.Zone) : null,
        LateFinishP95 = p.LateFinish is { } lf ? Instant(p.Zone.ToLocal(lf)) : null,
        MovingS = p.Moving is { } mv ? Range(mv, x => x.TotalSeconds, 0) : null,
        DarkS = p.Dark is { } dk ? Range(dk, x => x.TotalSeconds, 0) : null,
        Stations = [.. p.Stations.Select(s => new StationDocument(
            s.Name, s.Kind.ToString(), R(s.AlongRoute.Meters, 0), R(s.Place.LatDeg, 6), R(s.Place.LonDeg, 6), R(Known(s.Place.ElevationM), 0), Times(s.Arrival, p.Zone),
            Instant(p.Zone.ToLocal(s.LateArrival)), s.LatestPass is { } l ? Instant(p.Zone.ToLocal(l)) : null, Empty(s.LatestPassReason), s.TurnAround is { } tt ? Instant(p.Zone.ToLocal(tt)) : null, s.Light?.ToString(),
            R(s.AirTemperature?.DegreesCelsius, 1),
            s.InDirectSun, s.LastSun is { } lastSun ? Instant(p.Zone.ToLocal(lastSun)) : null, R(s.SunAbsorbed?.WattsPerSquareMeter, 0), R(s.CoreTemperature?.Typical.DegreesCelsius, 1), Range(s.WaterInHand, x => x.Liters, 2), R(s.EnergyUsed.Kilocalories, 0), [.. s.Charge.Select(c => new ChargeDocument(c.Name, R(c.Left.Percent, 1)))], R(s.WayOut?.TotalSeconds, 0), Empty(s.WayOutTo)))],
        PointsOfNoReturn = [.. p.PointsOfNoReturn.Select(x => new NoReturnDocument(x.Resource.ToString(), R(x.AlongRoute.Meters, 0), Instant(p.Zone.ToLocal(x.At))))],
        Alternates = p.Alternates is { } alt
            ? new AlternatesDocument(
                alt.Required, alt.Reason, [.. alt.Ends.Select(e => new AlternateEndDocument(e.Name, R(e.AlongRoute.Meters, 0), Times(e.Arrival, p.Zone), e.GoOnUntil is { } until ? Instant(p.Zone.ToLocal(until)) : null))],
                alt.IfBarred is { } barred ? new BarredWayOutDocument(barred.Barred, R(barred.WorstAt?.Meters, 0), barred.WalkOut is { } out1 ? Range(out1, x => x.TotalSeconds, 0) : null, barred.ExitName) : null)
            : null,
        Levers = [.. p.Levers.Select(l => new LeverDocument(l.Name, l.Kind.ToString(), l.Binding?.Name, Math.Clamp(R(l.GainFraction, 3), -999, 999), l.Sentence))],
        Needs = p.Needs is { } n
            ? new NeedsDocument(
                Range(n.Sweat, x => x.Liters, 2), Range(n.Drink, x => x.Liters, 2),
                [.. n.Fills.Select(x => new FillDocument(x.Name, R(x.AlongRoute.Meters, 0), R(x.FillTo.Liters, 2), R(x.WetProbability, 3)))], n.IfDry,
                Range(n.Sodium, x => x.Milligrams, 0), Range(n.Energy, x => x.Kilocalories, 0), R(n.Food.Kilocalories, 0), R(n.FoodReserve.Kilocalories, 0),
                R(n.CarbohydrateGPerHour.LowGPerHour, 0), R(n.CarbohydrateGPerHour.HighGPerHour, 0))
            : null,
        Heat = p.Heat is { } heat
            ? new HeatDocument(Range(heat.HighestCore, x => x.DegreesCelsius, 1), R(heat.HighestAt.Meters, 0), Instant(p.Zone.ToLocal(heat.HighestTime)),
                heat.LimitReached is { } limit ? Instant(p.Zone.ToLocal(limit)) : null, R(Known(heat.LimitProbability), 3), heat.Samples)
            : null,
        Sun = p.Sun is { } sun
            ? new SunDocument(R(sun.DirectSun.TotalSeconds, 0), R(sun.TerrainShade.TotalSeconds, 0), R(sun.SkylineUnknown.TotalSeconds, 0), sun.LastSun is { } end ? Instant(p.Zone.ToLocal(end)) : null)
            : null,
        BikeFails = p.BikeFails is { } w
            ? new BikeFailsDocument(
                R(w.WorstAt.Meters, 0), Range(w.WalkOut, x => x.TotalSeconds, 0), w.ExitName, w.Mode.ToString(), R(w.Water.Liters, 2), R(w.Food.Kilocalories, 0),
                R(w.Dark.TotalSeconds, 0), R(w.Remote.OverOneHourFraction, 3), R(w.Remote.OverTwoHoursFraction, 3))
            : null,
        CannotMove = p.CannotMove is { } c
            ? new CannotMoveDocument(
                R(c.Detection.Mean.TotalSeconds, 0), R(c.Detection.Worst.TotalSeconds, 0), R(c.Response.TotalSeconds, 0), c.ResponseClass,
                R(c.TolerableWait?.TotalSeconds, 0), c.LimitedBy, c.Carry)
            : null,
        Devices = [.. p.Devices.Select(x => new DeviceDocument(x.Name, Range(x.AtFinish, r => r.Percent, 1), R(Known(x.LastsProbability), 3), R(Known(x.NightOutProbability), 3), Empty(x.Note)))],
        Home = p.Home is { } h
            ? new HomeDocument([.. h.CheckIns.Select(k => new CheckInDocument(Instant(p.Zone.ToLocal(k.At)), k.What))], Times(h.Back, p.Zone), Instant(p.Zone.ToLocal(h.Overdue)), Instant(p.Zone.ToLocal(h.Alarm)))
            : null,
        Carry = [.. p.Carry.Select(i => new CarryDocument(i.Name, R(i.Mass?.Kilograms, 3), i.Reason))],
        IncidentWhatIf = Empty(p.IncidentWhatIf),
        Drivers = [.. p.Drivers.Select(x => new DriverDocument(x.Name, R(x.ShareFraction, 3)))],
        DriversOf = [.. p.DriversOf.Select(o => new OutcomeDriversDocument(o.Outcome, [.. o.Drivers.Select(x => new DriverDocument(x.Name, R(x.ShareFraction, 3)))]))],
        Convergence = p.Convergence is { } cv
            ? new ConvergenceDocument(cv.Samples, R(cv.FinishTypical.TotalSeconds, 0), R(cv.FinishHigh.TotalSeconds, 0), R(cv.LateFinish.TotalSeconds, 0), R(cv.ShortWaterProbability, 4))
            : null,
        Missing = [.. p.Missing.Select(x => new MissingDocument(x.Name, x.StandIn, x.Effect, Empty(x.Outcome), R(Known(x.ShareFraction), 3)))],
        Samples = p.Samples,
        Assumptions = [.. p.Assumptions.Select(x => new AssumptionDocument(x.Name, x.Value, Empty(x.SourceId)))],
        NotChecked = p.NotChecked,
        Findings = Findings(p.Findings),
        Cautions = Cautions.Sentences,
    };

    public static TripPlanDocument Document(TripPlan t) => new()
    {
        Schema = TripPlanDocument.SchemaVersion,
        Title = t.Title,
        Verdict = t.Verdict.ToString(),
        LargestDayS = R(t.LargestDay.TotalSeconds, 0),
        MovingS = t.Moving is { } m ? Range(m, x => x.TotalSeconds, 0) : null,
        Days = [.. t.Days.Select(d => new TripDayDocument
        {
            Day = d.Number,
            FromM = R(d.Stage.From.Meters, 0),
            ToM = R(d.Stage.To.Meters, 0),
            EffortS = R(d.Stage.Effort.TotalSeconds, 0),
            Camp = d.Stage.Camp?.Name,
            DaylightS = R(d.Daylight?.TotalSeconds, 0),
            CarriedKg = R(d.Carried.Kilograms, 3),
            FoodCarriedKg = R(d.FoodCarried.Kilograms, 3),
            FoodKcal = R(d.Food.Kilocalories, 0),
            WaterAtStartL = R(d.WaterAtStart.Liters, 2),
            BringToCampL = R(d.BringToCamp?.Liters, 2),
            ChargeAtStart = [.. d.ChargeAtStart.Select(c => new ChargeDocument(c.Name, R(c.Left.Percent, 1)))],
            StartMovedS = R(d.StartMoved.TotalSeconds, 0),
            RestS = R(d.Rest?.TotalSeconds, 0),
            NightLowC = R(d.NightLow?.DegreesCelsius, 1),
            TooCold = d.TooCold,
            Plan = Document(d.Plan),
        })],
        Findings = Findings(t.Findings),
        Cautions = Cautions.Sentences,
    };

    public static GroupPlanDocument Document(GroupPlan g) => new()
    {
        Schema = GroupPlanDocument.SchemaVersion,
        Group = RequestJson.Document(g.Group),
        SlowestFactor = R(g.SlowestFactor, 4),
        LeadersNeeded = g.LeadersNeeded,
        LeadersHold = g.LeadersHold,
        Regroups = [.. g.Regroups.Select(r => new RegroupDocument(r.Name, R(r.AlongRoute.Meters, 0), Instant(g.Plan.Zone.ToLocal(r.FirstThere)), Times(r.LastThere, g.Plan.Zone), R(r.Wait.TotalSeconds, 0)))],
        Spares = [.. g.Spares.Select(s => new GroupSpareDocument(s.Kind.ToString(), R(s.ExpectedFactor, 3), s.Carry, R(s.EnoughProbability, 4), s.FromLog))],
        Plan = Document(g.Plan),
        Findings = Findings(g.Findings),
        Cautions = Cautions.Sentences,
    };

    private static FindingDocument[] Findings(IReadOnlyList<Finding> findings)
        => [.. findings.Select(x => new FindingDocument(x.Code, x.Severity.ToString(), x.Subject, x.Message, [.. x.Values.Select(v => new FindingValueDocument(v.Name, v.Text))]))];

    internal static string Instant(DateTimeOffset t)
    {
        long half = TimeSpan.TicksPerSecond / 2;
        long ticks = t.Ticks + half;
        return new DateTimeOffset(ticks - (ticks % TimeSpan.TicksPerSecond), t.Offset).ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);
    }

    private static RangeDocument Range<T>(Estimate<T> e, Func<T, double> value, int decimals)
        where T : struct, IComparable<T>
        => new(R(value(e.Low), decimals), R(value(e.Typical), decimals), R(value(e.High), decimals), R(e.Level, 3));

    private static TimeRangeDocument Times(Estimate<DateTimeOffset> e, ZoneOffsets zone)
        => new(Instant(zone.ToLocal(e.Low)), Instant(zone.ToLocal(e.Typical)), Instant(zone.ToLocal(e.High)), R(e.Level, 3));

    private static double R(double v, int decimals)
    {
        double r = Math.Round(v, decimals, MidpointRounding.AwayFromZero);
        return r == 0 ? 0 : r;
    }

    private static double? R(double? v, int decimals) => v is { } x ? R(x, decimals) : null;

    private static double? Known(double v) => double.IsNaN(v) ? null : v;

    private static string? Empty(string s) => s.Length == 0 ? null : s;
}
