using System.Collections.Concurrent;
using System.Globalization;
using System.Text.RegularExpressions;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Demo;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>The fifteen invented rides: each shows what it was made to show. Regression of our own inputs, except where a source stands beside the check.</summary>
public sealed partial class ScenarioTests
{
    private static readonly ConcurrentDictionary<string, Lazy<Scenario>> Made = new();

    public static TheoryData<string> Ids => [.. Scenarios.Ids];

    [GeneratedRegex(@"\d\s?(km|L|kcal|%|min|h\b|h \d\d)|\d\d:\d\d")]
    private static partial Regex NumberWithUnit { get; }

    private static Scenario Of(string id) => Made.GetOrAdd(id, x => new Lazy<Scenario>(() => Scenarios.Of(x, Repo.File("docs", "examples", "data")))).Value;

    private static T Of<T>(string id)
        where T : Scenario => (T)Of(id);

    [Theory]
    [MemberData(nameof(Ids))]
    public void EveryScenario_StatesSixThings_EachWithAUnit(string id)
    {
        Scenario s = Of(id);
        IReadOnlyList<(string What, string Text)> six = s.Statements();
        Assert.Equal(6, six.Count);
        Assert.All(six, x => Assert.Matches(NumberWithUnit, x.Text));
        Assert.NotEmpty(s.Inputs);
        Assert.NotEmpty(s.MustShow);
        Assert.All(s.Shown(), x => Assert.NotEmpty(x));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void EveryScenario_Prints_WithTheCautions(string id)
    {
        using var writer = new StringWriter(CultureInfo.InvariantCulture);
        Of(id).Write(writer);
        string flat = Regex.Replace(writer.ToString(), @"\s+", " ");
        Assert.All(Cautions.Sentences, c => Assert.Contains(c, flat, StringComparison.Ordinal));
        Assert.Contains(Of(id).MustShow, flat, StringComparison.Ordinal);
    }

    [Fact]
    public void UnknownScenario_IsRefusedByName()
        => Assert.Contains("S99", Assert.Throws<ArgumentException>(() => Scenarios.Of("S99", ".")).Message, StringComparison.Ordinal);

    // The moving pace with stops takes 36 km in 8 h; civil dusk there and then is about 16:30 UTC by an almanac computed apart from this library.
    [Fact]
    public void S03_MiddleFinish_LiesAfterDusk_AndTheLossOfTheLargerLampIsCountedOut()
    {
        S03 s = Of<S03>("S03");
        Assert.InRange(s.Dusk.TimeOfDay.TotalMinutes, (16 * 60) + 25, (16 * 60) + 36);
        Assert.True(s.Plan.Finish!.Typical > s.Dusk);
        Assert.InRange((s.Plan.Finish.Typical - s.Plan.Start).TotalHours, 7.2, 8.8);
        // Energy at 3 C over power: the mode whose light lasts longer than the dark covers it, the others say by how much not.
        string[] shown = [.. s.Shown().Where(x => x.StartsWith("late finish", StringComparison.Ordinal))];
        Assert.Equal(s.Request.Devices[0].Modes.Count, shown.Length);
        for (int i = 0; i < shown.Length; i++)
        {
            Assert.EndsWith(s.HeadLampLasts(s.Request.Devices[0].Modes[i]) >= s.Plan.Dark!.High ? "covered" : "short", shown[i], StringComparison.Ordinal);
        }

        Assert.Contains(shown, x => x.EndsWith("short", StringComparison.Ordinal));
    }

    [Fact]
    public void S07_RunTimes_KeepTheReserve_AndTheWalkOutIsCovered()
    {
        S07 s = Of<S07>("S07");
        foreach (Device lamp in S07.Lamps)
        {
            foreach (DeviceMode mode in lamp.Modes)
            {
                double wh = lamp.Pack.UsableEnergy(Temperature.FromDegreesCelsius(9), mode.Power.Typical, lamp.StartChargeFraction).Low.WattHours;
                Assert.Equal(0.8 * wh, S07.RunTime(lamp, mode).TotalHours * (double)mode.Power.Typical.Watts, 1e-3);
            }
        }

        // Every pair of modes for the two halves of the dark: none that the charge less its reserve allows is brighter by the sum of log lumens.
        double energy = 0.8 * S07.Lamps[0].Pack.UsableEnergy(Temperature.FromDegreesCelsius(9), Power.FromWatts(4.5)).Low.WattHours;
        double halfH = s.Plan.Dark!.High.TotalHours / 2;
        Assert.True(s.Schedule.IsFeasible);
        Assert.True(s.Schedule.Uses.WattHours <= energy + 1e-9);
        double best = S07.Lamps[0].Modes.SelectMany(m => S07.Lamps[0].Modes, (m, n) => (m, n))
            .Where(p => halfH * ((double)p.m.Power.Typical.Watts + (double)p.n.Power.Typical.Watts) <= energy)
            .Max(p => Math.Log(p.m.Light!.Flux.Lumens) + Math.Log(p.n.Light!.Flux.Lumens));
        Assert.Equal(best, s.Schedule.Modes.Sum(m => Math.Log(m.Light!.Flux.Lumens)), 1e-9);
        Assert.Equal(s.WalkCovered, S07.Lamps.Min(l => S07.RunTime(l, l.Modes[0])) >= s.Plan.Dark.High + s.Plan.BikeFails!.WalkOut.High);
        Assert.Contains(s.Plan.Assumptions, a => a.SourceId == "assumption-night" && a.Value.Contains("72 %", StringComparison.Ordinal));
    }

    // 4.08 clo by the table waiting_insulation (5 C, 58.2 W/m2); I <= T_tol - g - c - r and "no interval" when nothing is left; 24 h of beacon against a wait of 24 h.
    [Fact]
    public void S09_Insulation_Interval_AndBeacon()
    {
        S09 s = Of<S09>("S09");
        Assert.Equal(4.08, S09.NeededClo, 0.005);
        TimeSpan sum = TimeSpan.FromMinutes(60 + 30 + (24 * 60));
        foreach (double h in new[] { 1.0, 20, 25.5, 25.6, 30, 40 })
        {
            TimeSpan? i = s.Interval(TimeSpan.FromHours(h));
            TimeSpan left = TimeSpan.FromHours(h) - sum;
            Assert.Equal(left > TimeSpan.Zero, i is not null);
            Assert.True(i is null || i <= left);
        }

        Assert.Null(s.Interval(s.Plan.CannotMove!.TolerableWait!.Value));
        Assert.Null(s.Plan.Schedule!.LongestInterval);
        Assert.Contains(s.Plan.Findings, f => f.Code == "contact.no-interval");
        Assert.Contains(S09.Wait(null).Findings, f => f.Message.Contains("no reserve", StringComparison.Ordinal));
        Assert.Contains(s.Shown(), x => x.Contains("no interval", StringComparison.Ordinal));
    }

    [Fact]
    public void S10_Coverage_FallsWithTheRate_RisesWithEachSpare_AndBranchesAddUp()
    {
        S10 s = Of<S10>("S10");
        double last = 1;
        foreach (int events in new[] { 0, 3, 6, 12, 30 })
        {
            double p = s.Choose(FailureRate.FromLog(events, Length.FromKilometers(400)), 1, 0).Coverage[0].CoveredProbability;
            Assert.True(p < last);
            last = p;
        }

        double before = 0;
        foreach ((int tubes, int patches) in new[] { (0, 0), (1, 0), (1, 1), (1, 2), (2, 2), (2, 3) })
        {
            double p = s.Choose(S10.Rate, tubes, patches).Coverage[0].CoveredProbability;
            Assert.True(p > before, $"{tubes} {patches}");
            before = p;
        }

        Assert.Equal(s.ByGram().Select(x => x.SecondsPerGram).OrderDescending(), s.ByGram().Select(x => x.SecondsPerGram));

        // Branches: with k punctures mended, the walk is the mean stake as often as there are more than k of them.
        double km = s.Route.Length.Kilometers;
        StakeAtPlace[] stakes = [.. s.Stakes()];
        double mean = stakes.Sum(x => x.Over.Kilometers * x.Unrepaired.TotalMinutes) / stakes.Sum(x => x.Over.Kilometers);
        foreach ((int tubes, int patches) in new[] { (0, 0), (1, 0) })
        {
            KitPlan k = s.Choose(S10.Rate, tubes, patches);
            double branches = 0, atMost = S10.Rate.AtMostProbability(k.Coverage[0].RepairableEvents, Length.FromKilometers(km));
            branches += atMost * 0;
            branches += (1 - atMost) * mean;
            Assert.Equal(branches, k.ExpectedLoss.TotalMinutes, 0.02 * branches);
        }
    }

    // 26.0 and 26.5 psi: table tyre_checks (standard atmosphere, ideal gas).
    [Fact]
    public void S11_Tyres_PushShare_AndHeight()
    {
        S11 s = Of<S11>("S11");
        Assert.Equal(26.0, S11.Tyres(6).After.PoundsForcePerSquareInch, 0.05);
        Assert.Equal(26.5, S11.Tyres(10).After.PoundsForcePerSquareInch, 0.05);
        Assert.InRange(s.PushShare, 0.01, 0.99);
        double last = 0;
        for (double g = 0; g <= 0.4; g += 0.02)
        {
            Assert.InRange(s.PushShareAt(g), last - 1e-12, 1);
            last = s.PushShareAt(g);
        }

        Assert.True(last > s.PushShareAt(0));
        Assert.Contains(s.Plan.Assumptions, a => a.SourceId == "macinnis-2015" && a.Value.Contains('%', StringComparison.Ordinal));
        PlanStation top = s.Plan.Stations.MaxBy(x => x.Place.ElevationM)!;
        Assert.NotNull(top.TurnAround);
        Assert.NotNull(s.Food.Points[0].AllDry);
    }

    [Fact]
    public void S12_LatestStart_IsDuskLessTheHighQuantile_AndLeversAreRankedByRecomputedMargins()
    {
        S12 s = Of<S12>("S12");
        Assert.Equal(s.Dusk - (s.Plan.Finish!.High - s.Plan.Start), s.Plan.LatestStart!.Value, TimeSpan.FromSeconds(1));
        RideRequest light = s.Request with { Options = s.Request.Options with { Samples = 500 } };
        foreach (Lever lever in s.Levers)
        {
            LeverEffect e = s.Plan.Levers.Single(l => l.Name == lever.Name);
            RidePlan again = RidePlanner.Plan(lever.Change(light)!);
            Assert.Equal(again.Verdict.Kind, e.Kind);
            Assert.Equal(again.Binding!.Amount, e.Binding!.Amount);
        }

        LeverEffect[] singles = [.. s.Plan.Levers.Where(l => s.Levers.Any(x => x.Name == l.Name))];
        Assert.Equal(singles.OrderBy(l => l.Kind).ThenByDescending(l => l.GainFraction).ThenBy(l => l.Name, StringComparer.Ordinal).Select(l => l.Name), singles.Select(l => l.Name));
        Assert.Contains(singles, l => l.Name.StartsWith("end at", StringComparison.Ordinal));
        Assert.Contains(singles, l => l.Name.Contains("other way", StringComparison.Ordinal));
        Assert.Contains(singles, l => l.Name.Contains("next day", StringComparison.Ordinal));
        StartSweep sweep = s.Sweep;
        Assert.All(sweep.Windows, w => Assert.True(w.To <= s.Plan.LatestStart.Value.AddMinutes(15)));
    }

    [Fact]
    public void S13_BothZones_ChangeOfDate_CalendarInUtc_NoFlame()
    {
        S13 s = Of<S13>("S13");
        string sheet = Regex.Replace(s.Sheet.ToPlainText(), @"\s+", " ");
        foreach (CheckIn c in s.Plan.Schedule!.CheckIns)
        {
            DateTimeOffset there = c.Expected.ToOffset(TimeSpan.FromHours(11)), here = c.Expected.ToOffset(TimeSpan.FromHours(2));
            Assert.Equal(TimeSpan.FromHours(9), there.DateTime - here.DateTime);
        }

        // Leaves on Saturday at 06:30 there, which is Friday 21:30 at the contact's.
        Assert.Contains("06:30 on Sat 29 November 2025 (UTC+11) = 21:30 on Fri 28 November 2025 (UTC+2)", sheet, StringComparison.Ordinal);
        Assert.Contains("Range rescue service at 555 0199", sheet, StringComparison.Ordinal);
        string calendar = s.Calendar.ToText();
        Assert.All(calendar.Split("\r\n").Where(l => l.StartsWith("DTSTART", StringComparison.Ordinal) || l.StartsWith("DTEND", StringComparison.Ordinal)), l => Assert.EndsWith("Z", l, StringComparison.Ordinal));
        Assert.Equal(s.Plan.Schedule.AlarmTime - s.Plan.Schedule.OverdueTime, TimeSpan.FromMinutes(30));
        Assert.DoesNotContain(s.Plan.Carry, i => i.Name is "gas stove" or "matches");
        Assert.Contains(s.Plan.Findings, f => f.Code == "kit.fire-ban" && f.Message.Contains("gas stove", StringComparison.Ordinal));
    }
}
