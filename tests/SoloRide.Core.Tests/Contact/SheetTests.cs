using FsCheck;
using FsCheck.Xunit;
using SoloRide.Contact;
using UnitsNet;

namespace SoloRide.Tests.Contact;

public sealed class SheetTests
{
    internal static SheetRequest Request(ZoneOffsets? contactZone = null) => new()
    {
        Rider = new RiderIdentity("Robin Alder")
        {
            Phone = "555 0101",
            AgeYears = 41,
            Description = "1.80 m, grey beard",
            Clothing = "orange jacket, black shorts",
            Medical = "bee allergy",
            Medicines = "carries an injector",
        },
        Contacts = [new TrustedContact("Kim Alder", "555 0102") { Zone = contactZone }],
        Emergency = new EmergencyCall("Spinel County police", "555 0100") { Jurisdiction = "Spinel County" },
        Schedule = CheckInPlanner.Plan(CheckInTests.Ride()),
        Title = "Spinel Basin Loop",
        RideZone = ZoneOffsets.Fixed(-6),
        RouteText = "Lower Gate, Ossary Saddle, Alder Spring, clockwise, 49 km",
        Exits = [new ExitPoint { Name = "Gate 3", AlongRoute = Length.FromKilometers(22), Phone = Known.No, PickUp = Known.Yes }],
        Means = [new CommunicationMeans(MeansKind.SatelliteMessenger) { Address = "robin@example.invalid" }],
        Vehicle = new VehicleAtTrailhead("white van, plate SB 101", "Lower Gate"),
        PreparedAt = new DateTimeOffset(2025, 4, 18, 20, 0, 0, TimeSpan.FromHours(-6)),
    };

    /// <summary>US National Park Service trip plan fields and New Zealand land search and rescue list: each has its place on the sheet.</summary>
    [Fact]
    [Checks(typeof(LeaveBehindSheet), CheckKind.Outside)]
    public void Sheet_HoldsThePublishedFields()
    {
        string text = System.Text.RegularExpressions.Regex.Replace(LeaveBehindSheet.Make(Request()).ToPlainText(), "\\s+", " ");
        foreach (string part in new[]
        {
            "Robin Alder", "555 0101", "41", "grey beard", "orange jacket", "Kim Alder", "555 0102", "white van", "Lower Gate", "clockwise", "Gate 3", "satellite",
            "Shelter", "Warmth", "Light", "Water", "Food", "First aid", "Fire", "Spinel County police at 555 0100", "in charge: Spinel County", "ALARM TIME", "OVERDUE AT",
            "WHEN YOU CALL, SAY", "Version", "In doubt call early", "Planning aid, not a guarantee",
        })
        {
            Assert.Contains(part, text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Sheet_FitsEightyColumns_AndAscii()
    {
        LeaveBehindSheet sheet = LeaveBehindSheet.Make(Request() with { Title = "Größte Runde über den Ćwir-Sattel " + new string('x', 120) });
        Assert.All(sheet.ToPlainText().Split('\n'), l => Assert.InRange(l.Length, 0, 80));
        Assert.All(sheet.ToPlainText(ascii: true), c => Assert.True(char.IsAscii(c)));
        Assert.StartsWith("# ", sheet.ToMarkdown(), StringComparison.Ordinal);
    }

    /// <summary>A contact at UTC+2 and a ride at UTC-6: eight hours apart, the day changes where it does.</summary>
    [Fact]
    public void ContactInAnotherZone_SeesBothClocks_WithTheDay()
    {
        SheetRequest r = Request(ZoneOffsets.Fixed(2));
        LeaveBehindSheet sheet = LeaveBehindSheet.Make(r);
        string text = sheet.ToMarkdown();
        Assert.Contains("07:00 on Sat 19 April 2025 (UTC-6) = 15:00 on Sat 19 April 2025 (UTC+2) where you are", text, StringComparison.Ordinal);

        // Alarm: 07:00 + 7.8 h + 30 min + 1 h = 16:18, at the contact 00:18 of the next day.
        Assert.Contains("16:18 on Sat 19 April 2025 (UTC-6) = 00:18 on Sun 20 April 2025 (UTC+2) where you are", text, StringComparison.Ordinal);
        Assert.Contains(sheet.Findings, f => f.Code == ContactFindingCodes.OtherZone);
    }

    /// <summary>Regression: the second contact's clock was once left out while the sheet said that times stand on both.</summary>
    [Fact]
    public void TwoContacts_OfDifferentClocks_AreEachNamed()
    {
        TrustedContact near = new("Kim Alder", "555 0102") { Zone = ZoneOffsets.Fixed(-6) }, far = new("Lee Rowan", "555 0103") { Zone = ZoneOffsets.Fixed(2) };
        LeaveBehindSheet one = LeaveBehindSheet.Make(Request() with { Contacts = [near, far] });
        Assert.Contains("16:18 on Sat 19 April 2025 (UTC-6) = 00:18 on Sun 20 April 2025 (UTC+2) where Lee Rowan is", one.ToMarkdown(), StringComparison.Ordinal);
        Assert.DoesNotContain("where Kim Alder is", one.ToMarkdown(), StringComparison.Ordinal);
        Assert.Contains("[Lee Rowan ", one.ToMarkdown().Replace("\\", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains(one.Findings, f => f.Code == ContactFindingCodes.OtherZone);
        LeaveBehindSheet both = LeaveBehindSheet.Make(Request() with { Contacts = [near with { Zone = ZoneOffsets.Fixed(1) }, far] });
        Assert.Contains(" where Kim Alder is = 00:18 on Sun 20 April 2025 (UTC+2) where Lee Rowan is", both.ToMarkdown(), StringComparison.Ordinal);
        LeaveBehindSheet same = LeaveBehindSheet.Make(Request() with { Contacts = [far, far with { Zone = null }] });
        Assert.Single(same.Findings, f => f.Code == ContactFindingCodes.ZoneAssumed && f.Subject == "Lee Rowan");
        Assert.All(one.ToPlainText().Split('\n'), l => Assert.InRange(l.Length, 0, 80));
        Assert.Equal(one.ToPlainText(), one.ToString());
    }

    /// <summary>Regression: normal silence once stood on the sheet without a date and on the clock of the ride alone.</summary>
    [Fact]
    public void NormalSilence_StandsOnBothClocks_WithTheDay()
    {
        DateTimeOffset start = new(2025, 4, 19, 7, 0, 0, TimeSpan.FromHours(-6));
        CheckInSchedule schedule = CheckInPlanner.Plan(CheckInTests.Ride() with
        {
            Stretches = [new ContactStretch("slot canyon", start.AddHours(1), start.AddHours(4), Known.No, Known.No)],
        });
        string text = LeaveBehindSheet.Make(Request(ZoneOffsets.Fixed(10)) with { Schedule = schedule }).ToMarkdown().Replace("\\", "", StringComparison.Ordinal);
        Assert.Contains("Silence from 08:00 Sat 19 Apr [yours 00:00 Sun 20 Apr] to 11:00 Sat 19 Apr [yours 03:00 Sun 20 Apr] is normal: no message passes on 'slot canyon'.", text, StringComparison.Ordinal);
        Assert.Single(System.Text.RegularExpressions.Regex.Matches(text, "slot canyon"));
    }

    /// <summary>The contact's clock goes back during the ride (Central Europe, 26 October 2025, 01:00 UTC): times before and after stand right.</summary>
    [Fact]
    public void ChangeOfTheClock_DuringTheRide_IsShownRight()
    {
        var change = new ZoneOffsets("Home", TimeSpan.FromHours(2), [new ZoneTransition(new DateTimeOffset(2025, 10, 26, 1, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(1))]);
        DateTimeOffset start = new(2025, 10, 26, 0, 30, 0, TimeSpan.Zero);
        CheckInSchedule schedule = CheckInPlanner.Plan(new CheckInRequest
        {
            Points = [new DecisionPoint(CheckInKind.Start, "Gate", start), new DecisionPoint(CheckInKind.Finish, "Gate", start.AddHours(2))],
            LateFinish = start.AddHours(3),
            ToleratedWait = TimeSpan.FromHours(24),
            Response = TimeSpan.FromHours(3),
        });
        string text = LeaveBehindSheet.Make(Request(change) with { RideZone = ZoneOffsets.Utc, Schedule = schedule }).ToMarkdown();
        Assert.Contains("02:30 on Sun 26 October 2025 (UTC+2)", text, StringComparison.Ordinal);
        Assert.Contains("05:00 on Sun 26 October 2025 (UTC+1)", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Medical_StaysOff_UnlessTheRiderSaysSo()
    {
        LeaveBehindSheet without = LeaveBehindSheet.Make(Request()), with = LeaveBehindSheet.Make(Request() with { ShareMedical = true });
        Assert.DoesNotContain("bee allergy", without.ToPlainText() + without.ToMarkdown(), StringComparison.Ordinal);
        Assert.DoesNotContain("injector", without.ToPlainText() + without.ToMarkdown(), StringComparison.Ordinal);
        Assert.Contains(without.Findings, f => f.Code == ContactFindingCodes.MedicalWithheld);
        Assert.Contains("bee allergy", with.ToPlainText(), StringComparison.Ordinal);
    }

    [Property]
    [Checks(typeof(LeaveBehindSheet), CheckKind.Property)]
    public bool AnySheet_HasAnAlarmAfterOverdue_AndNoMedicalDataUnasked(PositiveInt tolerated, PositiveInt hours, int zone, bool early)
    {
        SheetRequest r = Request(ZoneOffsets.Fixed(Math.Abs(zone % 27) - 13)) with
        {
            Schedule = CheckInPlanner.Plan(CheckInTests.Ride(1 + (tolerated.Get % 30), 2, 1 + (hours.Get % 60)) with { EarlyAlarm = early }),
        };
        LeaveBehindSheet sheet = LeaveBehindSheet.Make(r);
        string text = sheet.ToPlainText() + sheet.ToMarkdown();
        return sheet.AlarmTime > sheet.OverdueTime && !text.Contains("bee allergy", StringComparison.Ordinal) && !text.Contains("injector", StringComparison.Ordinal)
            && sheet.ToPlainText().Split('\n').All(l => l.Length <= 80);
    }

    [Fact]
    public void Checksum_TellsVersionsApart()
    {
        LeaveBehindSheet a = LeaveBehindSheet.Make(Request()), again = LeaveBehindSheet.Make(Request()), b = LeaveBehindSheet.Make(Request() with { Version = 2 });
        Assert.Equal(a.Checksum, again.Checksum);
        Assert.Equal(a, again);
        Assert.NotEqual(a.Checksum, b.Checksum);
        Assert.Contains(a.Checksum, a.ToPlainText(), StringComparison.Ordinal);
    }

    [Fact]
    [Checks(typeof(LeaveBehindSheet), CheckKind.BadInput)]
    public void MissingThings_AreRefusedOrSaid()
    {
        Assert.Contains("One or two", Assert.Throws<ArgumentException>(() => Request() with { Contacts = [] }).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new TrustedContact("Kim", " "));
        Assert.Throws<ArgumentException>(() => new EmergencyCall("police", ""));
        LeaveBehindSheet gap = LeaveBehindSheet.Make(Request() with { Emergency = null });
        Assert.Contains("NUMBER NOT GIVEN", gap.ToPlainText(), StringComparison.Ordinal);
        Assert.Contains(gap.Findings, f => f.Code == ContactFindingCodes.NoEmergencyNumber && f.Severity == FindingSeverity.Warning);
        Assert.Contains(LeaveBehindSheet.Make(Request() with { PreparedAt = new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero) }).Findings, f => f.Code == ContactFindingCodes.InThePast);
    }
}
