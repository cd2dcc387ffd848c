using System.Text.RegularExpressions;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Exposure;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>One fact once, and the earlier of two times, in what is read in ten seconds.</summary>
public sealed class ShortOutputTests
{
    private static string Flat(string text) => Regex.Replace(text, @"\s+", " ");

    // Out and back with a gate early on the way back: the latest pass at the far end comes before the time of turning for dusk.
    [Fact]
    public void TrailheadNote_TellsTheEarlierOfLatestPassAndTurn()
    {
        RideRequest r = Rides.Request(samples: 64) with { Deadlines = [new Deadline(DeadlineKind.Gate, "gate", Length.Zero, Length.FromKilometers(15), Rides.Start.AddHours(2.5))] };
        RidePlan plan = RidePlanner.Plan(r);
        PlanStation half = plan.Stations.Single(s => s.Name == "Half Way Road");
        Assert.True(half.LatestPass < half.TurnAround);
        Assert.Contains($"be past, or turn back, by {half.LatestPass:HH:mm}", Flat(plan.ToTrailheadNote()), StringComparison.Ordinal);
    }

    // The wait that is too long is told where its amount stands, not again as a warning.
    [Fact]
    public void Heed_DoesNotRepeatWhatAMarginTells()
    {
        RideRequest r = Rides.Request(samples: 64) with { Weather = Rides.Weather(2), WaitingOutfit = new Outfit([new Garment("jersey and shorts", 0.35)]), Devices = [Device.Messenger("messenger", 1250)] };
        RidePlan plan = RidePlanner.Plan(r);
        Assert.Contains(plan.Margins, m => m is { Kind: MarginKind.Wait, Holds: false });
        foreach (string text in new[] { plan.ToTrailheadNote(), plan.ToText(new PlanTextOptions { Details = false }) })
        {
            Assert.DoesNotContain("The wait of", Flat(text), StringComparison.Ordinal);
            Assert.DoesNotContain("No interval is short enough", Flat(text), StringComparison.Ordinal);
            Assert.Contains("aiting for help (cold)", Flat(text), StringComparison.Ordinal);
        }

        Assert.Contains(plan.Findings, f => f.Message.StartsWith("The wait of", StringComparison.Ordinal));
    }

    // Who waits drinks at rest, and then has body water up to 2 % (ACSM 2007): a ride with a litre left at the worst place covers a day of waiting at 18 C.
    [Fact]
    public void WaitingWater_IsJudgedAtRest()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(30), 64) with { Weather = Rides.Weather(18), Devices = [Device.Messenger("messenger", 1250)], StartWater = Volume.FromLiters(3) });
        PlanMargin wait = plan.Margins.Single(m => m.Kind == MarginKind.Wait);
        Assert.Contains("water", wait.Name, StringComparison.Ordinal);
        Assert.True(wait.Holds, wait.Amount);
    }

    [Fact]
    public void Sheet_MessagesStandInOrderOfTime_InPlainWords()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(60), 64) with { Weather = Rides.Weather(5), WaitingOutfit = new Outfit([new Garment("suit", 1.5)]), Options = new PlanOptions { Samples = 64, MessageInterval = TimeSpan.FromHours(1) } });
        string sheet = plan.ToSheet(new RiderIdentity("Rider A"), [new TrustedContact("Contact B", "555 0100")]).ToPlainText();
        Assert.DoesNotContain("at back at", Flat(sheet), StringComparison.Ordinal);
        Assert.Contains("if not yet back at", Flat(sheet), StringComparison.Ordinal);
        string part = sheet[sheet.IndexOf("MESSAGES TO EXPECT", StringComparison.Ordinal)..sheet.IndexOf("WHAT SILENCE", StringComparison.Ordinal)];
        string[] times = [.. Regex.Matches(part, @"^- (\d\d:\d\d)", RegexOptions.Multiline).Select(m => m.Groups[1].Value)];
        Assert.True(times.Length > 3);
        Assert.Equal(times.Order(StringComparer.Ordinal), times);
    }

    // The rider's own log after the ride: 2 punctures on 20 km on the wide prior of half an event in 300 km make 2.5 in 320 km.
    [Fact]
    public void Review_PrintsTheLog()
    {
        RideRequest r = Rides.Request(samples: 64);
        RidePlan plan = RidePlanner.Plan(r);
        string text = Flat(RideReview.Of(r, plan, new RideRecord { Finished = plan.Finish!.Typical, Failures = new Dictionary<FailureKind, int> { [FailureKind.TubePuncture] = 2 } }).ToText());
        Assert.Contains("punctured tube: 2 on this ride; the log now says once in 128 km", text, StringComparison.Ordinal);
    }
}
