using System.Text.RegularExpressions;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Other ends of the ride. The rule for alternates: 14 CFR 91.167(b) as transferred in the escape module; own consequences otherwise.</summary>
public sealed class AlternateTests
{
    private static RideRequest TwoWays() => Rides.Request(samples: 200) with
    {
        Exits =
        [
            new ExitPoint { Name = "Half Way Road", AlongRoute = Length.FromKilometers(10) },
            new ExitPoint { Name = "Gully Track", AlongRoute = Length.FromKilometers(14) },
        ],
    };

    [Fact]
    public void Ends_AreTheWaysOutThatTheRoutePasses_WithTheTimesOfTheirStations()
    {
        RidePlan plan = RidePlanner.Plan(TwoWays());
        PlanAlternates a = plan.Alternates!;
        Assert.Equal(["Half Way Road", "Gully Track"], a.Ends.Select(e => e.Name));
        Assert.All(a.Ends, e =>
        {
            PlanStation s = plan.Stations.Single(x => x.Name == e.Name);
            Assert.Equal(s.Arrival, e.Arrival);
            Assert.Equal(s.LatestPass, e.GoOnUntil);
            Assert.Equal(s.AlongRoute, e.AlongRoute);
        });
        Assert.Contains("End instead at Half Way Road (km 10.0", plan.ToText().Replace("\n               ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(72, 999, false)] // a good forecast all the way
    [InlineData(4, 999, true)] // it ends before the finish
    [InlineData(72, 0, true)] // thunder likely
    public void Required_UnlessTheForecastIsGoodFromAnHourBeforeToAnHourAfter(int hours, int thunderFrom, bool required)
    {
        RidePlan plan = RidePlanner.Plan(TwoWays() with { Weather = Rides.Weather(hours: hours, thunderFrom: thunderFrom) });
        Assert.Equal(required, plan.Alternates!.Required);
        Assert.Equal(required, plan.ToText().Contains("Tell home which", StringComparison.Ordinal));
    }

    [Fact]
    public void Required_WithoutAForecast_AndSaidWhenNoOtherEndIsKnown()
    {
        RidePlan plan = RidePlanner.Plan(TwoWays() with { Weather = null, Exits = [] });
        Assert.True(plan.Alternates!.Required);
        Assert.Empty(plan.Alternates.Ends);
        Assert.Contains("No other end is known, and one is wanted", plan.ToText().Replace("\n               ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    /// <summary>The plan of the same ride without that way out has the same worst point, found by another path through the code.</summary>
    [Theory]
    [InlineData(10, 14)]
    [InlineData(6, 16)]
    [InlineData(3, 5)]
    public void IfBarred_IsTheLossThatMakesTheLongestWalk(double firstKm, double secondKm)
    {
        RideRequest request = TwoWays() with
        {
            EndsAreExits = false,
            Exits =
            [
                new ExitPoint { Name = "A", AlongRoute = Length.FromKilometers(firstKm) },
                new ExitPoint { Name = "B", AlongRoute = Length.FromKilometers(secondKm) },
            ],
        };
        BarredWayOut barred = RidePlanner.Plan(request).Alternates!.IfBarred!;
        BikeFails[] without = [.. request.Exits.Select(e => RidePlanner.Plan(request with { Exits = [.. request.Exits.Where(x => x != e)] }).BikeFails!)];
        BikeFails worst = without.MaxBy(b => b.WalkOut.Typical)!;

        // The way out that is left away is also left away as a cut between steps: half a second and a few metres.
        Assert.Equal(worst.WalkOut.Typical.TotalSeconds, barred.WalkOut!.Typical.TotalSeconds, 2.0);
        Assert.Equal(worst.WorstAt.Meters, barred.WorstAt!.Value.Meters, 30.0);
        Assert.Equal(worst.ExitName, barred.ExitName);
        Assert.NotEqual(barred.Barred, barred.ExitName);
    }

    [Fact]
    public void IfBarred_NoOtherWay_IsSaid()
    {
        RidePlan plan = RidePlanner.Plan(TwoWays() with { EndsAreExits = false, Exits = [new ExitPoint { Name = "A", AlongRoute = Length.FromKilometers(5) }] });
        Assert.Equal(new BarredWayOut("A", null, null, null), plan.Alternates!.IfBarred);
        Assert.Contains("If A is barred, no other way out is known.", plan.ToText().Replace("\n               ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public void Text_KeepsNumbersWithTheirUnits()
    {
        foreach (MeasureSystem units in Enum.GetValues<MeasureSystem>())
        {
            string[] lines = RidePlanner.Plan(TwoWays()).ToText(new PlanTextOptions { Units = units, Details = true }).Split('\n');
            Assert.All(lines, l => Assert.DoesNotMatch(@"^ {15}(h|min|L|qt|km|mi|m|ft|C|F|kcal|Wh|%)\b", l));
            Assert.All(lines.Zip(lines.Skip(1)), l => Assert.False(Regex.IsMatch(l.First, @"(?<![\d.])\d{1,3}$") && Regex.IsMatch(l.Second, @"^ {15}\d{3}\b(?! kcal more)"), l.First + "|" + l.Second));
            Assert.All(lines, l => Assert.True(l.Length <= 80 || !l.Trim().Contains(' ', StringComparison.Ordinal), l));
        }
    }
}
