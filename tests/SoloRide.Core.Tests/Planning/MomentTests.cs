using System.Globalization;
using System.Text.RegularExpressions;
using FsCheck.Xunit;
using SoloRide.Contact;
using SoloRide.Kit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Short outputs for each moment, the cue sheet, and US units in every rendering.</summary>
public sealed partial class MomentTests
{
    private static readonly PlanTextOptions Us = new() { Units = MeasureSystem.UsCustomary };

    private static readonly RideRequest Request = Rides.Request(samples: 128) with
    {
        Sources = [new WaterSource { Name = "Spring at km 14 (250 m up)", AlongRoute = Length.FromKilometers(14), WetProbability = 1 }],
        KitItems = [new KitItem("spare tube", Mass.FromGrams(140), Volume.FromLiters(0.3), KitPlace.Bike, KitFunction.Tube), new KitItem("light jacket", Mass.FromGrams(250), Volume.FromLiters(0.9), KitPlace.Pack, KitFunction.Insulation)],
        Devices = [Batteries.Phone],
    };

    private static readonly RidePlan Plan = RidePlanner.Levers(Request);

    [GeneratedRegex(@"(?<![\w])\d+(\.\d+)? (km|L|kg|C|m)(?![\w/])|\bkm \d")]
    private static partial Regex Metric { get; }

    private static class Batteries
    {
        public static SoloRide.Batteries.Device Phone { get; } = SoloRide.Batteries.Device.Phone("phone", 4000);
    }

    private static TrailUpdate Update() => RidePlanner.Replan(Request, new TrailNews { AlongRoute = Length.FromKilometers(8), At = Rides.Start.AddHours(1), WaterInHand = Volume.FromLiters(2) });

    private static RideReview Review(double hours = 2.5) => RideReview.Of(Request, Plan, new RideRecord
    {
        Finished = Rides.Start.AddHours(hours), Drunk = Volume.FromLiters(1.2), Failures = new Dictionary<FailureKind, int> { [FailureKind.TubePuncture] = 1 }, Used = ["spare tube"],
        Weighed = (Mass.FromKilograms(76), Mass.FromKilograms(75.2)), ChargeLeftFraction = new Dictionary<string, double> { ["phone"] = 0.2 }, Passed = [("Half Way Road", Rides.Start.AddHours(1.2))],
    });

    private static IEnumerable<(string Name, Func<PlanTextOptions, string> Write)> Renderings()
    {
        yield return ("text", o => Plan.ToText(o));
        yield return ("markdown", o => Plan.ToMarkdown(o));
        yield return ("strip", o => Plan.ToStrip(o));
        yield return ("packing list", o => Plan.ToPackingList(o));
        yield return ("cue sheet", o => Plan.ToCueSheet(o));
        yield return ("evening", o => Plan.ToEveningList(o));
        yield return ("trailhead", o => Plan.ToTrailheadNote(Plan with { Start = Plan.Start.AddHours(1) }, o));
        yield return ("days", o => RidePlanner.CompareDays(Request, [new DateOnly(2027, 6, 14), new DateOnly(2027, 6, 15)]).ToText(o));
        yield return ("on the trail", o => Update().ToText(o));
        yield return ("after trouble", o => RidePlanner.AfterTrouble(Request, new TroubleNews { Kind = TroubleKind.BikeDead, AlongRoute = Length.FromKilometers(6), At = Rides.Start.AddHours(1), WaterInHand = Volume.FromLiters(2) }).ToText(o));
        yield return ("afterwards", o => Review().ToText(o));
        yield return ("sheet", o => Plan.ToSheet(new RiderIdentity("Rider A"), [new TrustedContact("Contact B", "555 0100")], options: o).ToPlainText());
    }

    public static TheoryData<string> Names => [.. Renderings().Select(r => r.Name)];

    private static string Write(string name, PlanTextOptions options) => Renderings().Single(r => r.Name == name).Write(options);

    // Everything in US units but names: a spring that is called after a kilometre keeps its name. JSON stays SI.
    [Theory]
    [MemberData(nameof(Names))]
    public void Rendering_InUsUnits_HoldsNoMetricAmount_AndKeepsNames(string name)
    {
        string us = Regex.Replace(Write(name, Us), @"\s+", " ").Replace("Spring at km 14 (250 m up)", "", StringComparison.Ordinal).Replace("Spring at km 14 \\(250 m up\\)", "", StringComparison.Ordinal);
        us = name == "strip" ? Regex.Replace(us, @"Spring.*?(?=\d\d?\.\d|Plan)", "") : us;
        us = Regex.Replace(us, @"\[[\w-]+\]|Spring at km[^:]*:", "");

        // A long name folds in the table, between cells of other columns: what is metric in it is its own.
        us = name == "text" ? Regex.Replace(us, @"\(250 m up\)|Spring at (?:\S+ )*?km 14", "") : us;
        MatchCollection found = Metric.Matches(us);
        Assert.True(found.Count == 0, $"{name}: {string.Join(" | ", found.Select(m => us[Math.Max(0, m.Index - 40)..Math.Min(us.Length, m.Index + 30)]))}");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Rendering_CarriesTheCautions_FitsEightyColumns_AndKnowsNoCulture(string name)
    {
        string text = Write(name, PlanTextOptions.Default);
        string flat = Regex.Replace(text.Replace("\\", "", StringComparison.Ordinal), @"\s+", " ");
        Assert.All(Cautions.Sentences, c => Assert.Contains(c, flat, StringComparison.Ordinal));
        if (name != "markdown")
        {
            Assert.All(text.Split('\n'), l => Assert.True(l.TrimEnd('\r').Length <= 80, l));
        }

        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(text, Write(name, PlanTextOptions.Default));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("evening")]
    [InlineData("trailhead")]
    [InlineData("on the trail")]
    [InlineData("after trouble")]
    [InlineData("afterwards")]
    [InlineData("days")]
    public void Moment_IsShort(string name) => Assert.InRange(Write(name, PlanTextOptions.Default).Split('\n').Length, 4, 26);

    // Exact conversions: 1 mile is 1609.344 m, 1 quart 0.946352946 L, 1 pound 0.45359237 kg, 32 F is 0 C.
    [Theory]
    [InlineData("at km 16.1 and 1.6 km on", "at mile 10.0 and 1.0 mi on")]
    [InlineData("1 000 m up (305-610 m)", "3 281 ft up (1 001-2 001 ft)")]
    [InlineData("2.5 L in hand", "2.6 qt in hand")]
    [InlineData("-10 C to 20 C", "14 F to 68 F")]
    [InlineData("5 kg, 100 g, 60-90 g carbohydrate", "11.0 lb, 3.5 oz, 60-90 g carbohydrate")]
    [InlineData("36 km/h or 10 m/s", "22.4 mph or 22 mph")]
    [InlineData("439 W/m2, 3 h 05, 90 %", "439 W/m2, 3 h 05, 90 %")]
    [InlineData("at Hut at km 5 (km 5.0)", "at Hut at km 5 (mile 3.1)")]
    public void UsWords_Converts(string metric, string us) => Assert.Equal(us, UsWords.Of(metric, ["Hut at km 5"]));

    [Property]
    public bool UsWords_WithoutAmounts_ChangesNothing(FsCheck.NonNull<string> text)
        => text.Get.Any(char.IsDigit) || UsWords.Of(text.Get, []) == text.Get;

    [Fact]
    public void CueSheet_NamesTurnsByTheLine()
    {
        // North, then due east, then back west: a right turn at the corner and a turn round at the end.
        var points = new List<GeoPoint>();
        for (int i = 0; i <= 100; i++)
        {
            points.Add(new GeoPoint(38 + (i * 0.0005), -109, 1500));
        }

        for (int i = 1; i <= 60; i++)
        {
            points.Add(new GeoPoint(38.05, -109 + (i * 0.0006), 1500 + i));
        }

        RidePlan plan = RidePlanner.Plan(Rides.Request(RideRoute.FromPoints(points, "Corner"), 0) with { Exits = [] });
        string cues = plan.ToCueSheet();
        Assert.Contains("right", cues, StringComparison.Ordinal);
        Assert.DoesNotContain("left", cues, StringComparison.Ordinal);
        string[] lines = cues.Split('\n');
        Assert.Contains(lines, l => l.Contains("bend", StringComparison.Ordinal) && l.TrimStart().StartsWith("5.", StringComparison.Ordinal) && l.Contains("  E ", StringComparison.Ordinal));
    }

    [Fact]
    public void CompareDays_KeepsTheClockTime_AndMovesTheClocks()
    {
        RideRequest r = Request with { Deadlines = [new Deadline(DeadlineKind.Gate, "gate", Length.Zero, Length.FromKilometers(20), Rides.Start.AddHours(8))] };
        PlanComparison c = RidePlanner.CompareDays(r, [new DateOnly(2027, 6, 14), new DateOnly(2027, 6, 15)]);
        Assert.Equal(c.Alternatives[0].Plan.Start.AddDays(1), c.Alternatives[1].Plan.Start);
        Assert.Equal(
            c.Alternatives[0].Plan.Margins.Single(m => m.Name.StartsWith("gate", StringComparison.Ordinal)).Time!.Value.TotalMinutes,
            c.Alternatives[1].Plan.Margins.Single(m => m.Name.StartsWith("gate", StringComparison.Ordinal)).Time!.Value.TotalMinutes, 2.0);
        Assert.Throws<ArgumentException>(() => RidePlanner.CompareDays(r, []));
    }

    [Fact]
    public void Trailhead_SaysWhatIsNew_AndNeverGoesByAScore()
    {
        string same = Plan.ToTrailheadNote(Plan);
        Assert.Contains("Nothing since the plan before", same, StringComparison.Ordinal);
        RidePlan late = RidePlanner.Plan(Request with { Start = Rides.Start.AddHours(11) });
        Assert.Equal(PlanVerdictKind.DoesNotFit, late.Verdict.Kind);
        Assert.Contains("Not as planned", late.ToTrailheadNote(), StringComparison.Ordinal);
    }

    [Fact]
    [Checks(typeof(RideReview), CheckKind.BadInput)]
    public void Review_BadRecord_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => RideReview.Of(Request, Plan, new RideRecord { Finished = Rides.Start }));
        Assert.Throws<ArgumentException>(() => RideReview.Of(Request, Plan, new RideRecord { Finished = Rides.Start.AddHours(2), Stopped = TimeSpan.FromHours(2) }));
        Assert.Throws<ArgumentException>(() => RideReview.Of(Request, Plan, new RideRecord { Finished = Rides.Start.AddHours(2), Passed = [("nowhere", Rides.Start.AddHours(1))] }));
        Assert.Throws<ArgumentException>(() => RideReview.Of(Request, Plan, new RideRecord { Finished = Rides.Start.AddHours(2), ChargeLeftFraction = new Dictionary<string, double> { ["nothing"] = 0.5 } }));
    }

    // Slower rides teach a slower pace; the rate of what broke is the conjugate update over the route's length, what did not break falls.
    [Property(MaxTest = 6)]
    [Checks(typeof(RideReview), CheckKind.Property)]
    public bool Review_SlowerRide_SlowerPace_AndRatesAreUpdated(byte more)
    {
        RideReview quick = Review(1.5), slow = Review(1.6 + (more / 100.0));
        FailureRate expected = FailureRate.WidePrior.Updated(1, Plan.Length);
        return slow.PaceFactor.Typical > quick.PaceFactor.Typical
            && slow.FailureRates[FailureKind.TubePuncture].PerDistance.Typical.Equals(expected.PerDistance.Typical, ReciprocalLength.FromInverseMeters(1e-12))
            && slow.Replace.SequenceEqual(["spare tube", "charge phone"])
            && slow.AllClear.StartsWith("BACK OK", StringComparison.Ordinal)
            && Math.Abs(slow.Sweat!.SweatRate.LitersPerHour - (2.0 / (1.6 + (more / 100.0)))) < 1e-6;
    }

    [Fact]
    public void Review_EndInsideTheRange_IsSaid()
    {
        Assert.True(Review((Plan.Finish!.Typical - Plan.Start).TotalHours).WithinRange);
        Assert.False(Review(12).WithinRange);
        Assert.Contains("Learn", Review(12).ToText(), StringComparison.Ordinal);
    }
}
