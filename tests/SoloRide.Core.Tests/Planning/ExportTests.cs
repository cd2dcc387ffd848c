using SoloRide.Contact;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

public sealed class ExportTests
{
    private static readonly RidePlan Plan = RidePlanner.Plan(Rides.Request(samples: 128));

    [Fact]
    public void Sheet_HasTheAlarmAndTheGapForTheNumber()
    {
        string text = Plan.ToSheet(new RiderIdentity("Rider A"), [new TrustedContact("Contact B", "555 0100") { Zone = ZoneOffsets.Fixed(2) }]).ToPlainText();
        Assert.Contains("Test Line", text, StringComparison.Ordinal);
        Assert.Contains("Half Way Road", text, StringComparison.Ordinal);
        Assert.Contains(Cautions.Sentences[0], text, StringComparison.Ordinal);
        Assert.True(Plan.Schedule!.AlarmTime > Plan.Schedule.OverdueTime);
    }

    [Fact]
    public void Calendar_ReadByTheKeptLibrary_HasEveryMessageAndTheAlarm()
    {
        string text = Plan.ToCalendar("test-plan", "Rider A", Rides.Start.AddHours(-12)).ToText();
        Ical.Net.Calendar calendar = Ical.Net.Calendar.Load(text)!;
        Assert.Equal(Plan.Schedule!.CheckIns.Count + 2, calendar.Events.Count);
    }

    [Fact]
    public void Gpx_ReadBack_HasTheLineAndTheStations()
    {
        string file = Path.GetTempFileName();
        try
        {
            File.WriteAllText(file, Plan.ToGpx());
            RideRoute back = RideRoute.Read(file);
            Assert.Equal(Plan.Length.Meters, back.Length.Meters, 1.0);
            int messages = Plan.Schedule!.CheckIns.Count(c => c.Place is not null);
            Assert.True(messages > 0);
            Assert.Equal(Plan.Stations.Count, back.Waypoints.Count(w => w.Type.StartsWith("station", StringComparison.Ordinal)));
            Assert.Equal(messages, back.Waypoints.Count(w => w.Type == "check-in"));
            Assert.Equal(Plan.PointsOfNoReturn.Count, back.Waypoints.Count(w => w.Type == "no return"));

            // A plan of what was written has no station of its own for them.
            Assert.DoesNotContain(RidePlanner.Plan(Rides.Request(back, samples: 64)).Stations, s => s.Name.StartsWith("message", StringComparison.Ordinal) || s.Name.StartsWith("no return", StringComparison.Ordinal));
        }
        finally
        {
            File.Delete(file);
        }

        Assert.Contains("\"FeatureCollection\"", Plan.ToGeoJson(), StringComparison.Ordinal);
    }

    [Fact]
    public void Strip_FitsTheTube_AndPackingListNamesReasons()
    {
        Assert.All(Plan.ToStrip().Split('\n'), l => Assert.True(l.Length <= 32, l));
        Assert.All(Plan.Carry, i => Assert.NotEmpty(i.Reason));
        Assert.Contains("in all", Plan.ToPackingList(), StringComparison.Ordinal);
    }

    // One text, everywhere: line breaks and escapes of the format are undone before looking.
    [Fact]
    public void EveryRendering_CarriesTheCautions()
    {
        string[] renderings =
        [
            Plan.ToText(), Plan.ToMarkdown(), Plan.ToJson(), Plan.ToStrip(), Plan.ToPackingList(), Plan.ToGpx(), Plan.ToGeoJson(),
            Plan.ToCalendar("test-plan", "Rider A", Rides.Start).ToText(),
            Plan.ToSheet(new RiderIdentity("Rider A"), [new TrustedContact("Contact B", "555 0100")]).ToPlainText(),
            Plan.ToSheet(new RiderIdentity("Rider A"), [new TrustedContact("Contact B", "555 0100")]).ToMarkdown(),
            Plan.ToHtml(),
            Plan.ToSheet(new RiderIdentity("Rider A"), [new TrustedContact("Contact B", "555 0100")]).ToHtml(),
        ];
        for (int i = 0; i < renderings.Length; i++)
        {
            string flat = System.Text.RegularExpressions.Regex.Replace(renderings[i].Replace("\r\n ", "", StringComparison.Ordinal).Replace("\\", "", StringComparison.Ordinal), @"\s+", " ");
            Assert.All(Cautions.Sentences, c => Assert.True(flat.Contains(c, StringComparison.Ordinal), $"rendering {i} lacks: {c}"));
        }
    }

    // A page is read as strict XML once the document type and the one bare element are taken off: every mark is closed and every name escaped.
    [Fact]
    public void Pages_WithUnkindNames_AreWellFormed_AndNameNoOutsideFile()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request() with { Title = "<b>Ridge & \"Gap\"</b> 'loop' \u00e9" });
        string sheet = plan.ToSheet(new RiderIdentity("Rider <A> & Co"), [new TrustedContact("Contact \"B\"", "555 0100")]).ToHtml();
        foreach (string page in new[] { plan.ToHtml(), plan.ToHtml(new PlanTextOptions { Details = true }), sheet })
        {
            string xml = page.Replace("<!DOCTYPE html>", "", StringComparison.Ordinal).Replace("<br>", "<br/>", StringComparison.Ordinal);
            xml = System.Text.RegularExpressions.Regex.Replace(xml, "<meta ([^>]*)>", "<meta $1/>");
            var document = System.Xml.Linq.XDocument.Parse(xml);
            Assert.Equal("html", document.Root!.Name.LocalName);
            Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("http", page, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("src=", page, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public void RefusedPlan_HasNoSheet()
        => Assert.Throws<InvalidOperationException>(() => RidePlanner.Plan(Rides.Request(Rides.Line(heights: false))).ToCalendar("x", "Rider A", Rides.Start));
}
