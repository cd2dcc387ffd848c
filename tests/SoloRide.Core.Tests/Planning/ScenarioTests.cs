using System.Collections.Concurrent;
using System.Globalization;
using System.Text.RegularExpressions;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Daylight;
using SoloRide.Demo;
using SoloRide.Escape;
using SoloRide.Exposure;
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

    [Fact]
    public void S01_CarriedWater_CoversTheDryBranch_AndTheHeatWindowClosesAtEleven()
    {
        S01 s = Of<S01>("S01");
        Assert.True(s.NeedToRoad.Liters <= 3.5);
        double last = double.PositiveInfinity;
        foreach (double litres in new[] { 4.5, 3.5, 3.0, 2.5, 2.0 })
        {
            double km = s.NoReturn(Volume.FromLiters(litres))?.Kilometers ?? 1000;
            Assert.True(km < last);
            Assert.True(litres >= 3.5 || km < 31);
            last = km;
        }

        DateTimeOffset eleven = new(2025, 6, 14, 11, 0, 0, TimeSpan.FromHours(-6));
        Assert.Equal(eleven, s.Heat.EndFrom(s.Start));
        Assert.All(s.Heat.Hours.Where(h => h.Category < HeatCategory.Three), h => Assert.True(h.From < eleven));
        Assert.Contains(s.Plan.Margins, m => m.Kind == MarginKind.Heat && m.Name.Contains("Graded Road", StringComparison.Ordinal));
    }

    // Latest entry = early onset - q90(time over the ridge to the nearer way off).
    [Fact]
    public void S02_LatestEntry_IsEarlyOnsetLessTheHighTime_AndTheAdviceFollowsIt()
    {
        S02 s = Of<S02>("S02");
        StormPlan p = s.Storm;
        RideRequest bare = s.Request with { Deadlines = [] };
        Assert.Equal(3, p.Exits.Count);
        foreach (StormEscape e in s.Ridge.Escapes)
        {
            TimeSpan high = RidePlanner.TimeBetween(bare, s.Ridge.From, e.LeavesAt).High + e.Time.High;
            Assert.Equal(s.Ridge.Onset.Low - high, p.Exits.Single(x => x.Name == e.Name).LatestEntry, TimeSpan.FromSeconds(1));
        }

        Assert.Equal(s.Ridge.Onset.Low - RidePlanner.TimeBetween(bare, s.Ridge.From, s.Ridge.To).High, p.LatestForWhole, TimeSpan.FromSeconds(1));
        Assert.Equal(p.Exits.Max(x => x.LatestEntry), p.LatestEntry);
        Assert.Equal(p.Entry.High <= p.LatestEntry, p.InTime);
        StormPlan late = s.StormFrom(s.Start.AddHours(3));
        Assert.False(late.InTime);
        Assert.Contains("drop the ridge", late.Advice, StringComparison.Ordinal);
        Assert.InRange(late.LatestStart, p.LatestStart.AddMinutes(-15), p.LatestStart.AddMinutes(15));
        Assert.Contains(s.Plan.Margins, m => m.Kind == MarginKind.Storm);
    }

    [Fact]
    public void S04_Loads_Split_AndColdCamps()
    {
        S04 s = Of<S04>("S04");
        Assert.True(S04.LoadOn(0) > S04.LoadOn(1) && S04.LoadOn(1) > S04.LoadOn(2));

        // Every pair of camps: none makes the largest day smaller.
        double best = double.PositiveInfinity;
        for (int i = 0; i < S04.Camps.Count; i++)
        {
            for (int j = i + 1; j < S04.Camps.Count; j++)
            {
                Length a = S04.Camps[i].AlongRoute, b = S04.Camps[j].AlongRoute;
                best = Math.Min(best, new[] { s.Effort(Length.Zero, a), s.Effort(a, b), s.Effort(b, s.Route.Length) }.Max().TotalSeconds);
            }
        }

        Assert.Equal(best, s.Stages.Largest.TotalSeconds, 0.5);
        Assert.Equal(["Oller Col", "Long Tarn", "High Corrie"], S04.TooCold.Select(c => c.Name));
        Assert.Equal(3, s.Days.Count);
    }

    // The same as one trip: every pair of camps by a trip of its own, since each day begins fresh.
    [Fact]
    public void S04_AsATrip_LargestDayIsLeast_AndTheCampsTooColdAreFlagged()
    {
        TripPlan trip = Of<S04>("S04").Trip;
        Assert.Equal(3, trip.Days.Count);
        Assert.True(trip.Days[0].Carried > trip.Days[1].Carried && trip.Days[1].Carried > trip.Days[2].Carried);
        Assert.True(trip.Days[0].FoodCarried > trip.Days[1].FoodCarried && trip.Days[1].FoodCarried > trip.Days[2].FoodCarried);
        Assert.All(trip.Days.Where(d => d.Stage.Camp is not null), d => Assert.Equal(d.Stage.Camp!.NightLow!.Value.DegreesCelsius < 2, d.TooCold));
        Assert.All(trip.Days.Zip(trip.Days.Skip(1)), x => Assert.True(x.Second.Plan.Start - x.First.Plan.Finish!.High > TimeSpan.Zero));
        double ridden = trip.Days.Max(d => d.Stage.Effort.TotalSeconds);
        Assert.Equal(ridden, trip.LargestDay.TotalSeconds, 1e-6);
    }

    [Fact]
    public void S06_Roster_NamesEveryoneOfTheFile()
    {
        S06 s = Of<S06>("S06");
        string sheet = s.Of(S06.Group).ToRoster(s.Roster);
        Assert.Equal(12, s.Roster.Count);
        Assert.Equal(2, s.Roster.Count(r => r.IsLeader));
        Assert.All(s.Roster, r => Assert.Contains(r.Name, sheet, StringComparison.Ordinal));
        Assert.Contains(s.Papers(), p => p == sheet);
    }

    // 31.0 degrees: table horizon_angle. The end of the sun is held against the sun's altitude minute by minute.
    [Fact]
    public void S05_SunEnd_IsTheLastMomentAboveTheRim_AndTheEarlierClockBinds()
    {
        S05 s = Of<S05>("S05");
        Assert.Equal(31.0, s.AtMouth.RimDeg, 0.05);
        foreach ((DateTimeOffset end, Func<double, double> rim) in new (DateTimeOffset, Func<double, double>)[]
        {
            (s.AllRound.LastSun!.Value, _ => s.AtMouth.RimDeg),
            (s.AtMouth.Ends!.Value, az => Math.Atan(300 * Math.Abs(Math.Sin((az - 20) * Math.PI / 180)) / 500) * 180 / Math.PI),
        })
        {
            DateTimeOffset last = default;
            for (DateTimeOffset t = s.Start; t < s.Start.AddHours(8); t = t.AddMinutes(1))
            {
                SolarPosition sun = SolarPosition.At(t, s.Route.Start);
                last = sun.AltitudeDeg > rim(sun.AzimuthDeg) ? t : last;
            }

            Assert.Equal(last, end, TimeSpan.FromMinutes(4));
        }

        Assert.True(s.AtMouth.Day.Sun.Sunset.At - s.AllRound.LastSun > TimeSpan.FromHours(2));
        DateTimeOffset[] turns = [.. s.Clocks.Select(c => s.Turns(c).Stations[^1].At!.Value)];
        TurnAround both = s.Turns([.. s.Clocks]).Stations[^1];
        Assert.NotEqual(turns[0], turns[1]);
        Assert.Equal(turns.Min(), both.At);
        Assert.Equal(s.Clocks[Array.IndexOf(turns, turns.Min())].Name, both.Binding);
        Assert.Single(s.Plan.Stations.Select(x => x.WayOutTo).Where(x => x.Length > 0).Distinct());
    }

    [Fact]
    public void S08_LatestCrossing_IsWhenTheLimitIsMet_AndACampIsOffered()
    {
        S08 s = Of<S08>("S08");
        FordPlan p = s.Crossing;
        foreach (FordOutlook f in p.Fords)
        {
            // Depth times speed at the latest crossing is the limit; it lies below before.
            double h = (f.LatestCrossing!.Value - f.Ford.At).TotalHours;
            double Product(double x) => (f.Ford.Depth.Meters + (x * f.Ford.DepthRisePerHour.Meters)) * (f.Ford.WaterSpeed.MetersPerSecond + (x * f.Ford.SpeedRisePerHour.MetersPerSecond));
            Assert.Equal(0.4, Product(h), 1e-3);
            Assert.Equal(FordVerdict.DoNotCross, FordLimit.Judge(f.Ford.Depth + (f.Ford.DepthRisePerHour * (h + 0.01)), f.Ford.WaterSpeed + (f.Ford.SpeedRisePerHour * (h + 0.01))).Verdict);
            Assert.Equal(f.Back!.High < f.LatestCrossing, f.InTime);
        }

        Assert.False(p.InTime);
        Assert.Equal(["Head Flat"], p.Camps.Select(c => c.Name));
        Assert.Contains("Head Flat", p.Advice, StringComparison.Ordinal);
        FordPlan early = s.CrossingFrom(s.Start.AddHours(-2));
        Assert.True(early.InTime);
        Assert.Empty(early.Camps);
    }

    // 7 km at 2.5 km/h is 2 h 48, 22 km is 8 h 48.
    [Fact]
    public void S14_TheShorterWayOutWins_AndTheWaitIsOffered()
    {
        S14 s = Of<S14>("S14");
        TroubleAdvice a = s.Advice;
        Assert.Equal((2 * 60) + 48, a.Ways.Single(w => w.ExitName == "Estate Track North").Time.Typical.TotalMinutes, 1.5);
        Assert.Equal((8 * 60) + 48, a.Ways.Single(w => w.ExitName == "Estate Track South").Time.Typical.TotalMinutes, 1.5);
        Assert.Equal("Estate Track North", a.Ways[0].ExitName);
        Assert.Equal(TroubleChoice.Walk, a.Choice);
        Assert.Equal(ResponseClass.R3, a.Wait.Class);
        Assert.Contains("class R3", a.ToText(), StringComparison.Ordinal);
        Assert.Contains("in daylight", a.ToText(), StringComparison.Ordinal);
        Assert.Equal(TimeSpan.Zero, a.Ways[0].Dark);
        Assert.All(a.Messages, m => Assert.True(m.Length <= 160 && m.All(char.IsAscii)));
    }

    [Fact]
    public void S15_CutOffs_Punctures_Releases()
    {
        S15 s = Of<S15>("S15");
        EventPlan p = s.Day;
        double slow = Math.Exp(Math.Log(1.22) * 1.6448536269514722);
        foreach (EventCutOff c in p.Checkpoints)
        {
            TimeSpan middle = p.Plan.Stations.MinBy(x => Math.Abs(x.AlongRoute.Meters - c.AlongRoute.Meters))!.Arrival.Typical - p.Plan.Start;
            for (int w = 0; w < 3; w++)
            {
                Assert.Equal(s.Event.Waves[w].Start + (middle * slow), c.ByWave[w].CutOff, TimeSpan.FromSeconds(1));
            }

            Assert.Equal(c.ByWave.Max(x => x.CutOff), c.Release);
        }

        Assert.Equal(50 * s.Route.Length.Kilometers / 400, p.ExpectedPuncturesFactor, 1e-9);
        Assert.NotEmpty(p.Papers);
        Assert.DoesNotContain("USD", p.ToText(), StringComparison.Ordinal);
        Assert.All(p.ToText().Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    // The moving pace with stops takes 36 km in 8 h; civil dusk there and then is about 16:30 UTC by an almanac computed apart from this library.
    [Fact]
    public void S03_MiddleFinish_LiesAfterDusk_AndTheLossOfTheLargerLampIsCountedOut()
    {
        S03 s = Of<S03>("S03");
        Assert.InRange(s.Dusk.TimeOfDay.TotalMinutes, (16 * 60) + 25, (16 * 60) + 36);
        Assert.True(s.Plan.Finish!.Typical > s.Dusk);
        Assert.NotEqual(ColdWetClass.Slight, s.Cold.Worst!.Class);
        Assert.Equal(Wetness.Wet, s.Cold.Worst.Wetness);
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

    // 1.1539: table group_pace_checks, ten riders of spread 0.10; two leaders and one for ten: a school's published guide.
    [Fact]
    public void S06_SlowestOfTen_Leaders_Spares_AndWorksheetApart()
    {
        S06 s = Of<S06>("S06");
        GroupPlan g = s.Of(S06.Group);
        Assert.Equal(1.1539, g.SlowestFactor, 5e-5);
        Assert.Equal(2, g.LeadersNeeded);
        Assert.True(g.LeadersHold);
        Assert.False(s.Of(S06.Group with { Leaders = 1 }).LeadersHold);
        Assert.False(s.Of(S06.Group with { Riders = 21 }).LeadersHold);
        Assert.Equal(10 * s.Route.Length.Kilometers / 300, g.Spares.Single(x => x.Kind == FailureKind.TubePuncture).ExpectedFactor, 1e-6);
        Assert.False(S06.Worksheet.Stops);
        Assert.True(RiskWorksheet.Of(3, 2, 8, 4, 5, 3).Stops);
        Assert.DoesNotContain("worksheet", g.Plan.ToText(), StringComparison.OrdinalIgnoreCase);
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
