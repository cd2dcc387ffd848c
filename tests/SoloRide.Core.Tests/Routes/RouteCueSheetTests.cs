using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class RouteCueSheetTests
{
    // A cross of two trails and a fork beyond it.
    private static RouteNetwork Net { get; } = RouteNetwork.Of(
    [
        Line("East way", 0, -1000, 0, 2000),
        Line("North way", -1000, 0, 1500, 0),
        Line("Fork", 0, 1000, -800, 1400),
    ]);

    [Fact]
    public void CueSheet_EachJunction_HasTurnWaysAndTrail()
    {
        RideRoute route = Net.Way([At(-1000, 0), At(0, 2000)]).Route!.WithName("Cross");
        RouteCueSheet sheet = Net.CueSheet(route);
        Assert.Equal(["start north", "right", "straight on", "finish"], sheet.Cues.Select(c => c.Words));
        Assert.Equal([0, 4, 3, 0], sheet.Cues.Select(c => c.Pass?.Side is null ? 0 : c.Ways));
        Assert.Equal(["North way", "East way", "East way", ""], sheet.Cues.Select(c => c.Onto));
        Assert.Equal([1000, 1000, 1000, 0], sheet.Cues.Select(c => Math.Round(c.ToNext.Meters)));
        Assert.Equal(route.Length.Meters, sheet.Cues.Sum(c => c.ToNext.Meters), 6);

        // Straight on over the cross is the longest wrong way; back from the fork there is one.
        Assert.Equal("North way", sheet.Cues[1].DearestWrongWay!.Trail.Name);
        Assert.Equal(1500, sheet.Cues[1].DearestWrongWay!.ToNextJunction.Meters, 0);
        Assert.Equal("Fork", sheet.Cues[2].DearestWrongWay!.Trail.Name);
        Assert.Null(sheet.Cues[0].DearestWrongWay);
        Assert.Null(sheet.Cues[1].DearestWrongWay!.ThereAndBack);
        Assert.Contains(sheet.Findings, f => f.Code == "routes.access-unproven");
        Assert.DoesNotContain(sheet.Findings, f => f.Code == "routes.off-trails");

        string text = sheet.ToString();
        Assert.Contains("right, 90 deg: East way", text, StringComparison.Ordinal);
        Assert.Contains("not straight on North way: 3.00 km there and back", text, StringComparison.Ordinal);
        Assert.Contains("signs and the ground come first", text, StringComparison.Ordinal);
        Assert.All(text.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    /// <summary>A wrong turn is priced by the caller's cost, there and back, which differ with the grade.</summary>
    [Fact]
    public void CueSheet_OnANetworkWithCost_PricesTheWrongTurn()
    {
        // Ten minutes a kilometre north, twenty south: 1.5 km there and back is 45 min.
        RouteNetwork net = Net.WithCost(p => p.Trail.Name == "North way"
            ? TimeSpan.FromMinutes((p.Backward ? 20 : 10) * p.Step.LengthM / 1000)
            : p.Trail.Name == "Fork" ? null : TimeSpan.FromMinutes(5 * p.Step.LengthM / 1000));
        RideRoute route = net.Way([At(-1000, 0), At(0, 2000)]).Route!;
        RouteCueSheet sheet = net.CueSheet(route);
        Assert.Equal(45, sheet.Cues[1].DearestWrongWay!.ThereAndBack!.Value.TotalMinutes, 1.0);
        Assert.Null(Assert.Single(sheet.Cues[2].Pass!.WrongWays).ThereAndBack);
        Assert.Contains("3.00 km, 45 min there and back", sheet.ToString(), StringComparison.Ordinal);
        Assert.All(net.JunctionsAlong(route).SelectMany(j => j.Ways).Where(w => w.ThereAndBack is not null),
            w => Assert.True(w.ThereAndBack > TimeSpan.Zero));
    }

    [Fact]
    public void CueSheet_OffTheNetwork_SaysForHowLong()
    {
        RouteCueSheet half = Net.CueSheet(RideRoute.FromPoints([At(0, 0), At(0, 2000), At(0, 4000)]));
        Finding off = Assert.Single(half.Findings, f => f.Code == "routes.off-trails");
        Assert.Contains("About 2.0 km of the route, first at km 2.0", off.Message, StringComparison.Ordinal);
        RouteCueSheet all = Net.CueSheet(RideRoute.FromPoints([At(9000, 0), At(9000, 2000)]));
        Assert.Equal(["start east", "finish"], all.Cues.Select(c => c.Words));
        Assert.Contains(all.Findings, f => f.Code == "routes.off-trails");
        RouteCueSheet point = Net.CueSheet(RideRoute.FromPoints([At(0, 0)]));
        Assert.Equal("start", Assert.Single(point.Cues).Words);
        Assert.Contains("caution", RouteNetwork.Of([]).CueSheet(RideRoute.FromPoints([At(0, 0), At(0, 90)])).Findings[0].Severity.ToString(), StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Regression: a junction a few metres beside a route of the network is none of the route; a drawn line near the trails still finds its own.</summary>
    [Fact]
    public void JunctionsAlong_BesideTheRoute_AreNotTold()
    {
        // Two lanes 8 m apart; only the other one has a side trail.
        RouteNetwork net = RouteNetwork.Of([Line("Lane", 0, 0, 0, 1000), Line("Other lane", 8, 0, 8, 1000), Line("Side", 8, 500, 600, 500)]);
        RideRoute on = net.Way([At(0, 0), At(0, 1000)]).Route!;
        Assert.Empty(net.JunctionsAlong(on));
        Assert.Single(net.JunctionsAlong(on, Length.FromMeters(10)));
        Assert.Single(net.JunctionsAlong(RideRoute.FromPoints([At(5, 0), At(5, 1000)])));

        // Ends on trails, the leg straight across: read loosely.
        Assert.Single(net.JunctionsAlong(RideRoute.FromPoints([At(8, 480), At(3, 500), At(8, 520)])));
    }

    [Fact]
    public void CueSheet_BadInput_SaysWhatIsAllowed()
    {
        RideRoute route = RideRoute.FromPoints([At(0, 0), At(0, 2000)]);
        Assert.Throws<ArgumentNullException>(() => Net.CueSheet(null!));
        Assert.Throws<ArgumentOutOfRangeException>(() => Net.CueSheet(route, Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => Net.CueSheet(route, Length.FromKilometers(2)));
    }

    private static GeoPoint At(double northM, double eastM) => new(45 + (northM / 111_132), 7 + (eastM / 78_847));

    private static TrailLine Line(string name, double n0, double e0, double n1, double e1) => new(RideRoute.FromPoints([At(n0, e0), At(n1, e1)], name));
}
