using System.Globalization;
using System.Text.Json;
using FsCheck.Xunit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

public sealed class RidePlannerTests
{
    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.BadInput)]
    public void Plan_RouteWithoutLength_NamesIt()
    {
        RideRoute route = RideRoute.FromPoints([new GeoPoint(38, -109, 100), new GeoPoint(38, -109, 100)], "Nowhere");
        ArgumentException e = Assert.Throws<ArgumentException>(() => RidePlanner.Plan(Rides.Request(route)));
        Assert.Contains("Nowhere", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.BadInput)]
    public void Plan_ThingsBeyondTheEnd_AreNamed()
    {
        RideRequest r = Rides.Request();
        Assert.Contains("Far Spring", Assert.Throws<ArgumentException>(() => RidePlanner.Plan(r with { Sources = [new WaterSource { Name = "Far Spring", AlongRoute = Length.FromKilometers(40) }] })).Message, StringComparison.Ordinal);
        Assert.Contains("Gate", Assert.Throws<ArgumentException>(() => RidePlanner.Plan(r with { Deadlines = [new Deadline(DeadlineKind.Gate, "Gate", Length.Zero, Length.FromKilometers(99), Rides.Start.AddHours(9))] })).Message, StringComparison.Ordinal);
        Assert.Contains("No Place", Assert.Throws<ArgumentException>(() => RidePlanner.Plan(r with { Exits = [new ExitPoint { Name = "No Place" }] })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentNullException>(() => RidePlanner.Plan(null!));
    }

    [Fact]
    public void Plan_NoHeights_IsRefusedWithDistanceAndDaylight()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(heights: false)));
        Assert.Equal(PlanVerdictKind.Refused, plan.Verdict.Kind);
        Assert.InRange(plan.Length.Kilometers, 19, 21);
        Assert.Contains("dusk", plan.Verdict.Sentence, StringComparison.Ordinal);
        Assert.Contains(plan.Findings, f => f.Code == "planning.no-heights");
        Assert.Contains(Cautions.Text.Split(' ')[0], plan.ToText(), StringComparison.Ordinal);
        Assert.NotEmpty(plan.ToJson());
    }

    [Fact]
    public void Plan_NoHeightsButTerrain_IsPlanned()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(heights: false)), new Slope());
        Assert.NotEqual(PlanVerdictKind.Refused, plan.Verdict.Kind);
        Assert.NotNull(plan.Ascent);
    }

    [Theory]
    [InlineData("planning.start-past", 1)]
    [InlineData("planning.start-far", -30 * 24)]
    public void Plan_NowAgainstStart_IsAFinding(string code, int hours)
        => Assert.Contains(RidePlanner.Plan(Rides.Request(samples: 0) with { PreparedAt = Rides.Start.AddHours(hours) }).Findings, f => f.Code == code);

    [Fact]
    public void Plan_NothingKnownButRouteAndStart_SaysWhatIsMissing()
    {
        RidePlan plan = RidePlanner.Plan(new RideRequest { Route = Rides.Line(), Start = Rides.Start, Options = new PlanOptions { Samples = 100 } });
        foreach (string code in new[] { "planning.no-zone", "planning.no-now", "planning.no-forecast", "planning.no-exits", "planning.no-sources", "planning.no-devices", "planning.no-rider", "planning.no-failure-log" })
        {
            Assert.Contains(plan.Findings, f => f.Code == code);
        }

        Assert.Equal(5, plan.NotChecked.Count);
    }

    [Fact]
    public void Plan_ForecastEndsEarly_IsAFinding()
        => Assert.Contains(RidePlanner.Plan(Rides.Request(samples: 0) with { Weather = Rides.Weather(hours: 8) }).Findings, f => f.Code == "planning.forecast-short");

    [Property(MaxTest = 8)]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public bool Plan_EarlierStart_NeverLowersTheDaylightMargin(byte hours)
    {
        double early = 5 + (hours % 6), late = early + 1.5;
        return Daylight(early) >= Daylight(late) - 1e-6;

        static double Daylight(double hour)
            => RidePlanner.Plan(Rides.Request(samples: 64) with { Start = Rides.Start.Date.AddHours(hour) is var d ? new DateTimeOffset(d, TimeSpan.FromHours(-6)) : default, PreparedAt = null })
                .Margins.Single(m => m.Kind == MarginKind.Daylight).Time!.Value.TotalMinutes;
    }

    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public void Plan_AnyThreadsAndCulture_SameJson()
    {
        RideRequest r = Rides.Request(samples: 600);
        string one = RidePlanner.Plan(r).ToJson();
        string many = RidePlanner.Plan(r with { Options = r.Options with { Threads = 3 } }).ToJson();
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            comma.NumberFormat.NumberGroupSeparator = ".";
            CultureInfo.CurrentCulture = comma;
            Assert.Equal(one, many);
            Assert.Equal(one, RidePlanner.Plan(r).ToJson());
            Assert.DoesNotContain(RidePlanner.Plan(r).ToText(), c => c > 126);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public void Plan_OrderOfSourcesAndExits_ChangesNothing()
    {
        WaterSource[] sources = [new() { Name = "A", AlongRoute = Length.FromKilometers(6), WetProbability = 0.7 }, new() { Name = "B", AlongRoute = Length.FromKilometers(13), WetProbability = 1 }];
        ExitPoint[] exits = [new() { Name = "X", AlongRoute = Length.FromKilometers(4) }, new() { Name = "Y", AlongRoute = Length.FromKilometers(15) }];
        RideRequest r = Rides.Request(samples: 0);
        Assert.Equal(
            RidePlanner.Plan(r with { Sources = sources, Exits = exits }).ToJson(),
            RidePlanner.Plan(r with { Sources = [.. sources.Reverse()], Exits = [.. exits.Reverse()] }).ToJson());
    }

    [Property(MaxTest = 8)]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public bool Plan_StationsAndArrivals_Ascend(byte km)
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(12 + (km % 30)), samples: 64));
        for (int i = 1; i < plan.Stations.Count; i++)
        {
            PlanStation a = plan.Stations[i - 1], b = plan.Stations[i];
            if (b.AlongRoute < a.AlongRoute || b.Arrival.Typical < a.Arrival.Typical || b.Arrival.High < a.Arrival.High || b.LateArrival < b.Arrival.High.AddSeconds(-1))
            {
                return false;
            }

            if (a.LatestPass is { } p && b.LatestPass is { } q && q < p)
            {
                return false;
            }
        }

        return true;
    }

    [Fact]
    public void Plan_LargerReserve_NeverImprovesTheVerdict()
    {
        PlanVerdictKind Kind(double hours) => RidePlanner.Plan(Rides.Request(samples: 128) with
        {
            Start = new DateTimeOffset(2027, 6, 14, 17, 0, 0, TimeSpan.FromHours(-6)),
            Options = new PlanOptions { Samples = 128, DaylightReserve = TimeSpan.FromHours(hours) },
        }).Verdict.Kind;
        PlanVerdictKind[] kinds = [Kind(0), Kind(1), Kind(2), Kind(4)];
        Assert.Equal(kinds.Order(), kinds);
        Assert.Equal(PlanVerdictKind.DoesNotFit, kinds[^1]);
    }

    [Fact]
    public void Plan_Renderings_CarryTheCautionsAndFit()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request());
        string text = plan.ToText();
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 80, line));
        Assert.All(Cautions.Sentences, s => Assert.Contains(s, text.ReplaceLineEndings(" ").Replace("               ", "", StringComparison.Ordinal).Replace("  ", " ", StringComparison.Ordinal), StringComparison.Ordinal));
        Assert.Contains(Cautions.Text, plan.ToMarkdown(), StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(plan.ToJson());
        Assert.Equal(Cautions.Sentences.Count, json.RootElement.GetProperty("cautions").GetArrayLength());
        Assert.Equal("soloride-plan-1", json.RootElement.GetProperty("schema").GetString());
        Assert.Contains("mi", plan.ToText(new PlanTextOptions { Units = MeasureSystem.UsCustomary }), StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_ChargeAtStations_FallsWithoutABank()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 0) with { Devices = [SoloRide.Batteries.Device.Phone("phone", 4000), SoloRide.Batteries.Device.Messenger("messenger", 1250)] });
        Assert.All(plan.Stations, s => Assert.Equal(2, s.Charge.Count));
        Assert.Equal(100, plan.Stations[0].Charge[0].Left.Percent, 1e-6);
        for (int i = 1; i < plan.Stations.Count; i++)
        {
            Assert.True(plan.Stations[i].Charge[0].Left <= plan.Stations[i - 1].Charge[0].Left);
        }

        Assert.True(plan.Stations[^1].Charge[0].Left < plan.Stations[0].Charge[0].Left);
    }

    [Fact]
    public void Levers_WayOutGivenByPlace_IsOfferedAsAnEnd()
    {
        RideRequest r = Rides.Request(samples: 0);
        r = r with { Exits = [new ExitPoint { Name = "By Place", Place = r.Route.PointAt(Length.FromKilometers(12)) }] };
        Assert.Contains(Lever.Usual(r), l => l.Name == "end at By Place");
        Assert.InRange(Lever.Usual(r).Single(l => l.Name == "end at By Place").Change(r)!.Route.Length.Kilometers, 11.9, 12.1);
    }

    [Fact]
    public void Plan_Cancelled_Stops()
        => Assert.ThrowsAny<OperationCanceledException>(() => RidePlanner.Plan(Rides.Request(samples: 5000), cancel: new CancellationToken(true)));

    private sealed class Slope : ITerrainHeights
    {
        public double HeightM(double latDeg, double lonDeg) => 1000 + (500 * Math.Sin(latDeg * 100));

        public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM)
        {
            for (int i = 0; i < heightsM.Length; i++)
            {
                heightsM[i] = HeightM(latDeg[i], lonDeg[i]);
            }
        }
    }
}
