using System.Globalization;
using System.Text.RegularExpressions;
using SoloRide.Daylight;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Papers keep their width, cut nothing, and tell one number one way.</summary>
public sealed partial class PlanPaperTests
{
    private static readonly PlanTextOptions Plain = new() { Details = false };

    [GeneratedRegex(@"(?<n>\d+\.\d) (L|qt)\b")]
    private static partial Regex Litres { get; }

    private static string Flat(string text) => string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    [Theory]
    [InlineData(MeasureSystem.Metric)]
    [InlineData(MeasureSystem.UsCustomary)]
    public void WaterToCarry_IsOneFigureEverywhere_RoundedUp(MeasureSystem units)
    {
        var o = new PlanTextOptions { Details = false, Units = units };
        string unit = units == MeasureSystem.Metric ? "L" : "qt";
        foreach (double airC in new[] { 14.0, 19, 22, 23.5, 26, 31 })
        {
            RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 64) with { Weather = Rides.Weather(airC) });
            string text = Flat(plan.ToText(o));
            string figure = Regex.Match(text, @"[Ss]tart with (\d+\.\d) " + unit).Groups[1].Value;
            double litres = double.Parse(figure, CultureInfo.InvariantCulture) * (units == MeasureSystem.Metric ? 1 : 0.946352946);
            Assert.InRange(litres, plan.Needs!.Fills[0].FillTo.Liters - 1e-5, plan.Needs.Fills[0].FillTo.Liters + 0.25);
            Assert.All(Regex.Matches(text, @"[Ss]tart with (\d+\.\d) ").Select(m => m.Groups[1].Value), x => Assert.Equal(figure, x));
            Assert.Contains($" {figure} {unit}", plan.ToText(o).Split('\n').First(l => l.Contains("  start  ", StringComparison.Ordinal) || l.TrimStart().StartsWith("0.0  start", StringComparison.Ordinal)), StringComparison.Ordinal);
            Assert.Contains($" {figure} ", plan.ToStrip(o).Split('\n').First(l => l.Contains("start", StringComparison.Ordinal)), StringComparison.Ordinal);
            Assert.Contains($"water {figure} {unit}", Flat(plan.ToPackingList(o)), StringComparison.Ordinal);
            Assert.Contains($"{figure} {unit} of water", Flat(plan.ToEveningList(o)), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void DifferenceOfPlans_TellsWaterAsThePlanDoes()
    {
        RidePlan a = RidePlanner.Plan(Rides.Request(samples: 64)), b = RidePlanner.Plan(Rides.Request(samples: 64) with { Weather = Rides.Weather(33) });
        string line = PlanDifference.Between(a, b).Single(l => l.StartsWith("water at the start", StringComparison.Ordinal));
        string[] told = [.. Litres.Matches(line).Select(m => m.Groups["n"].Value)];
        Assert.Equal(new[] { a, b }.Select(p => Regex.Match(p.Verdict.Sentence + p.Carry[0].Name, @"water (\d+\.\d) L").Groups[1].Value), told);
    }

    private static RideRequest LongNames() => Rides.Request(Rides.Line(30), 64) with
    {
        Start = Rides.Start.AddHours(10),
        Exits =
        [
            new ExitPoint { Name = "Lower Gate of the Long Meadow Estate", AlongRoute = Length.FromKilometers(9) }, new ExitPoint { Name = "Graded Road", AlongRoute = Length.FromKilometers(15) },
            new ExitPoint { Name = "Donaudampfschifffahrtsgesellschaftskapitaenshaus", AlongRoute = Length.FromKilometers(21) },
        ],
        EndsAreExits = false,
    };

    [Fact]
    public void TableStripAndCues_CutNoNameNoNumberAndNoHeading()
    {
        RidePlan plan = RidePlanner.Plan(LongNames());
        string page = plan.ToText(Plain);
        string[] lines = page.Split('\n');
        int head = Array.FindIndex(lines, l => l.TrimStart().StartsWith("km  place", StringComparison.Ordinal));
        Assert.All(lines, l => Assert.True(l.Length <= 80, l));
        string table = string.Concat(lines.Skip(head).TakeWhile(l => l.Length > 0).Select(l => l + "\n"));
        foreach (string word in "way out on foot Lower Gate of the Long Meadow Estate Graded Road".Split(' '))
        {
            Assert.Matches($@"(?<!\w){word}(?!\w)", table);
        }

        // The last column: joined from its lines it is the whole cell of each station.
        int last = lines[head].LastIndexOf("way", StringComparison.Ordinal);
        string column = Flat(string.Join(' ', lines.Skip(head).TakeWhile(l => l.Length > 0).Select(l => l.Length > last ? l[last..] : "")));
        foreach (PlanStation s in plan.Stations.Where(s => s.WayOut is { } w && w > TimeSpan.FromMinutes(1)))
        {
            string cell = PlanText.Cells(s, plan, PlanUnits.Metric)[7];
            Assert.Contains(cell.Replace(" ", "", StringComparison.Ordinal), column.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        }

        string strip = plan.ToStrip();
        Assert.All(strip.Split('\n'), l => Assert.True(l.Length <= 32, l));
        Assert.Contains("Graded Road", strip, StringComparison.Ordinal);
        Assert.Contains("highest point", strip, StringComparison.Ordinal);
        Assert.Contains("Lower Gate of the Long Meadow Estate", Flat(strip), StringComparison.Ordinal);
        string cues = plan.ToCueSheet();
        Assert.All(cues.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.Contains("Lower Gate of the Long Meadow Estate", Flat(cues), StringComparison.Ordinal);
    }

    [Fact]
    public void AsciiOption_HoldsInEveryText_AndEightyColumnsHoldForAnyTitle()
    {
        RideRequest r = LongNames() with { Title = "Ünïcode — “Ride” 山 " + new string('x', 90), Exits = [new ExitPoint { Name = "Élan des Äußeren Übergangs", AlongRoute = Length.FromKilometers(9) }] };
        RidePlan plan = RidePlanner.Plan(r);
        foreach (bool ascii in new[] { false, true })
        {
            var o = new PlanTextOptions { Ascii = ascii };
            string[] texts =
            [
                plan.ToText(o), plan.ToEveningList(o), plan.ToPackingList(o), plan.ToTrailheadNote(null, o), plan.ToCueSheet(o), plan.ToStrip(o),
                RidePlanner.Compare([("a", r), ("b", r)]).ToText(o), GroupPlanner.Plan(r, new RidingGroup { Riders = 4, Leaders = 1 }).ToText(o),
            ];
            Assert.All(texts.SelectMany(t => t.Split('\n')), l => Assert.True(l.Length <= 80, l));
            Assert.All(texts, t => Assert.True(!ascii || System.Text.Ascii.IsValid(t)));
            Assert.True(!ascii || System.Text.Ascii.IsValid(plan.ToMarkdown(o)));
        }

        string plain = plan.ToStrip(new PlanTextOptions { Ascii = true });
        Assert.Contains("Unicode - \"Ride\" ?", plain, StringComparison.Ordinal);
        Assert.Contains("Elan des Au?eren Ubergangs", Flat(plain), StringComparison.Ordinal);
        Assert.Contains("Élan des Äußeren Übergangs", Flat(plan.ToStrip()), StringComparison.Ordinal);
    }

    [Fact]
    public void UnnamedExits_AreNumbered_AndPlanned()
    {
        RideRoute line = Rides.Line();
        GeoPoint At(double km) => line.PointAt(Length.FromKilometers(km));
        RideRoute route = line.WithWaypoints([new RouteWaypoint(At(5), "", "exit: road", ""), new RouteWaypoint(At(12), "", "exit: road", ""), new RouteWaypoint(At(15), "Mill", "exit: house", ""), new RouteWaypoint(At(8), "", "water", "")]);
        RideRequest r = RideRequest.For(route, Rides.Start) with { Options = new PlanOptions { Samples = 64 } };
        Assert.Equal(["exit: road 1", "exit: road 2", "Mill"], r.Exits.Select(e => e.Name));
        Assert.Equal("water", Assert.Single(r.Sources).Name);
        Assert.Contains(RidePlanner.Plan(r).Stations, s => s.Name == "exit: road 2");
    }

    [Fact]
    public void SourcesOfOneName_AreToldApartByPlace()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(40), 64) with
        {
            Weather = Rides.Weather(24), Load = new Load { WaterCapacity = Volume.FromLiters(2.5) },
            Sources = [.. new[] { 8.0, 16, 24 }.Select(km => new WaterSource { Name = "S", AlongRoute = Length.FromKilometers(km), WetProbability = 1 })],
        });
        string text = Flat(plan.ToText());
        Assert.DoesNotContain("(pass", text, StringComparison.Ordinal);
        Assert.True(plan.Needs!.Fills.Count > 2, string.Join("; ", plan.Needs.Fills) + plan.Verdict.Sentence);
        Assert.Equal(plan.Needs.Fills.Count, plan.Needs.Fills.Select(f => f.Name).Distinct().Count());
        Assert.All(plan.Needs.Fills.Skip(1), f => Assert.Equal($"S (km {f.AlongRoute.Kilometers.ToString("F1", CultureInfo.InvariantCulture)})", f.Name));
    }

    [Fact]
    public void NameOfADeadline_IsNoNameOfStartOrFinish()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 64) with { Deadlines = [new Deadline(DeadlineKind.Other, "promised home", Length.Zero, Length.FromKilometers(20), Rides.Start.AddHours(8))] });
        Assert.Equal(("start", "finish"), (plan.Stations[0].Name, plan.Stations[^1].Name));
        Assert.DoesNotContain("leaving promised home", plan.ToJson(), StringComparison.Ordinal);
        Assert.Contains(plan.Margins, m => m.Name == "promised home at the finish");
    }

    [Fact]
    public void LastSun_AgreesWithTheStationsAndTheDay()
    {
        // A free horizon all round: the sun leaves the finish at sunset, long after the ride.
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 64) with { Skylines = [HorizonProfile.Level()] });
        Assert.True(plan.Sun!.SunToTheEnd);
        Assert.Equal(plan.Stations[^1].LastSun, plan.Sun.LastSun);
        Assert.True(plan.Sun.LastSun > plan.Finish!.Typical);
        Assert.Contains("In the sun to the end; it leaves the finish at", Flat(plan.ToText(Plain)), StringComparison.Ordinal);
        Assert.DoesNotContain("Last direct sun", plan.ToText(Plain), StringComparison.Ordinal);
    }

    [Fact]
    public void ClockChange_OnTheRide_IsToldAndMarked()
    {
        // Common practice: clocks of that zone go back at 02:00 on the first Sunday of November.
        var utc = new DateTimeOffset(2027, 11, 7, 8, 0, 0, TimeSpan.Zero);
        var zone = new ZoneOffsets("made", TimeSpan.FromHours(-6), [new ZoneTransition(utc, TimeSpan.FromHours(-7))]);
        RideRequest r = Rides.Request(samples: 64) with { Zone = zone, Start = new DateTimeOffset(2027, 11, 6, 23, 30, 0, TimeSpan.FromHours(-6)), PreparedAt = null, Weather = null };
        RidePlan plan = RidePlanner.Plan(r);
        Finding f = plan.Findings.Single(x => x.Code == "planning.clock-changes");
        Assert.Equal(FindingSeverity.Warning, f.Severity);
        Assert.Contains("at 02:00 on Sun 7 November 2027 it goes back 1 h 00 to 01:00 (UTC-7). The time from 01:00 to 02:00 comes twice.", f.Message, StringComparison.Ordinal);
        string text = Flat(plan.ToText(Plain));
        Assert.Contains(f.Message.Split('.')[0], text, StringComparison.Ordinal);
        DateTimeOffset late = zone.ToLocal(plan.LateFinish!.Value);
        Assert.Equal(TimeSpan.FromHours(-7), late.Offset);
        Assert.Contains(late.ToString("HH", CultureInfo.InvariantCulture) + ":", text, StringComparison.Ordinal);
        Assert.Matches(@"19 of 20 such rides by \d\d:\d\d\+1d\*", text);
        Assert.DoesNotContain(RidePlanner.Plan(r with { Start = r.Start.AddDays(-3) }).Findings, x => x.Code == "planning.clock-changes");
        Assert.DoesNotContain("*", Flat(RidePlanner.Plan(Rides.Request(samples: 128)).ToText(Plain)), StringComparison.Ordinal);
    }

    [Fact]
    public void Thunder_IsNamedWithItsPlaceOnce()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 128) with { Weather = Rides.Weather(thunderFrom: 9) });
        PlanMargin storm = plan.Margins.Single(m => m.Kind == MarginKind.Storm);
        Assert.StartsWith("thunder at highest point (km ", storm.Name, StringComparison.Ordinal);
        Assert.DoesNotContain("at the highest point at", plan.ToText(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, true)]
    [InlineData(99, true)]
    [InlineData(100, false)]
    [InlineData(0, false)]
    public void FewSamples_AreAWarning(int samples, bool warned)
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: samples));
        Assert.Equal(warned, plan.Findings.Any(f => f is { Code: "planning.few-samples", Severity: FindingSeverity.Warning }));
        Assert.Equal(warned, Flat(plan.ToText(Plain)).Contains(samples == 1 ? "Only 1 sample:" : $"Only {samples} samples:", StringComparison.Ordinal));
    }
}
