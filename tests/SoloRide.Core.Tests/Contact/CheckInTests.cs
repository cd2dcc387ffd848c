using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Contact;

namespace SoloRide.Tests.Contact;

public sealed class CheckInTests
{
    private static readonly DateTimeOffset Start = new(2025, 4, 19, 7, 0, 0, TimeSpan.FromHours(-6));

    internal static CheckInRequest Ride(double toleratedH = 12, double responseH = 3, double hours = 6) => new()
    {
        Points =
        [
            new DecisionPoint(CheckInKind.Start, "Lower Gate", Start) { Place = new GeoPoint(38.41227, -109.60318) },
            new DecisionPoint(CheckInKind.PointOfNoReturn, "Alder Spring", Start.AddHours(hours * 0.4), Start.AddHours(hours * 0.5)),
            new DecisionPoint(CheckInKind.Finish, "Lower Gate again", Start.AddHours(hours), Start.AddHours(hours * 1.2)),
        ],
        LateFinish = Start.AddHours(hours * 1.3),
        ToleratedWait = TimeSpan.FromHours(toleratedH),
        Response = TimeSpan.FromHours(responseH),
        Means = [new CommunicationMeans(MeansKind.SatelliteMessenger)],
        PreparedAt = Start.AddDays(-1),
    };

    /// <summary>checkin_latency.csv: own arithmetic, a mishap uniform in the interval.</summary>
    [Fact]
    [Checks(typeof(CheckInPlanner), CheckKind.Outside)]
    public void Detection_OfTable_IsTheSame()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("planning", "checkin_latency.csv")).Rows)
        {
            double i = row.Num("interval_min"), g = row.Num("grace_min");
            Assert.InRange(CheckInKernel.MeanDetectionS(i * 60, g * 60) / 60, row.Num("mean_detection_min") - 0.05, row.Num("mean_detection_min") + 0.05);
            Assert.InRange(CheckInKernel.WorstDetectionS(i * 60, g * 60) / 60, row.Num("worst_detection_min") - 0.5, row.Num("worst_detection_min") + 0.5);
        }
    }

    [Fact]
    public void Schedule_InWords_NamesEveryMessageAndBothTimes()
    {
        CheckInSchedule s = CheckInPlanner.Plan(Ride());
        string text = s.ToString();
        Assert.Contains("Overdue at 15:18 on Sat 19 April 2025 (UTC-6); alarm time 16:18 on Sat 19 April 2025 (UTC-6).", text, StringComparison.Ordinal);
        Assert.All(s.CheckIns, c => Assert.Contains(c.Name, text, StringComparison.Ordinal));
        Assert.All(s.WhatSilenceMeans, w => Assert.Contains(w, text, StringComparison.Ordinal));
    }

    /// <summary>New Zealand intentions form (try, wait an hour, try, call) and 30 min after the expected time as in air-traffic practice.</summary>
    [Fact]
    [Checks(typeof(CheckInPlanner), CheckKind.Outside)]
    public void Overdue_AndAlarm_FollowThePublishedWaits()
    {
        CheckInSchedule s = CheckInPlanner.Plan(Ride());
        Assert.Equal(Ride().LateFinish.AddMinutes(30), s.OverdueTime);
        Assert.Equal(s.OverdueTime.AddHours(1), s.AlarmTime);
        Assert.Equal([EscalationPhase.Watch, EscalationPhase.Uncertainty, EscalationPhase.Alert, EscalationPhase.Distress], s.Phases.Select(p => p.Phase));
        Assert.Equal(CheckInKind.Start, s.First.Kind);
        Assert.Equal(CheckInKind.Finish, s.Last.Kind);
    }

    [Fact]
    public void Interval_IsWhatIsLeftOfTheTolerance_AndMessagesFillIt()
    {
        // 6 h - 30 min - 1 h - 3 h = 1 h 30.
        CheckInSchedule s = CheckInPlanner.Plan(Ride(toleratedH: 6));
        Assert.Equal(TimeSpan.FromMinutes(90), s.LongestInterval);
        Assert.Contains(s.CheckIns, c => c.Kind == CheckInKind.Clock);
        Assert.InRange(s.LongestSilence, TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(90));
        Assert.Equal(s.LongestSilence + s.Grace, s.WorstDetection);
    }

    [Fact]
    public void NoInterval_WhenHelpCannotComeInTime()
    {
        CheckInSchedule s = CheckInPlanner.Plan(Ride(toleratedH: 4, responseH: 24));
        Assert.Null(s.LongestInterval);
        Assert.Contains(s.Findings, f => f.Code == ContactFindingCodes.NoInterval);
        Assert.DoesNotContain(s.CheckIns, c => c.Kind == CheckInKind.Clock);
        Assert.Contains(CheckInPlanner.Plan(Ride(toleratedH: 4.6)).Findings, f => f.Code == ContactFindingCodes.IntervalTooShort);
    }

    [Fact]
    public void Stretch_WhereNothingPasses_IsNormalSilence()
    {
        CheckInSchedule s = CheckInPlanner.Plan(Ride(toleratedH: 6) with
        {
            Stretches = [new ContactStretch("slot canyon", Start.AddHours(1), Start.AddHours(4), Known.No, Known.No)],
        });
        Assert.Contains(s.WhatSilenceMeans, l => l.Contains("slot canyon", StringComparison.Ordinal) && l.Contains("08:00 to 11:00 on Sat 19 April 2025 (UTC-6)", StringComparison.Ordinal));
        Assert.Equal("slot canyon", Assert.Single(s.NormalSilence).Name);
        Assert.DoesNotContain(s.CheckIns, c => c.Expected > Start.AddHours(1) && c.Expected < Start.AddHours(4));
        CheckIn spring = s.CheckIns.Single(c => c.Name == "Alder Spring");
        Assert.Equal(Known.No, spring.CanPass);
        Assert.Equal(Start.AddHours(4), spring.Expected);
        Assert.Contains(s.Findings, f => f.Code == ContactFindingCodes.SilenceTooLong);
    }

    [Fact]
    public void EarlyAlarm_SkipsUncertainty_AndStaysAfterOverdue()
    {
        CheckInSchedule s = CheckInPlanner.Plan(Ride() with { EarlyAlarm = true });
        Assert.Equal(s.OverdueTime.AddMinutes(15), s.AlarmTime);
        Assert.DoesNotContain(s.Phases, p => p.Phase == EscalationPhase.Uncertainty);
    }

    [Fact]
    public void BatteryThatEndsBeforeTheAlarm_IsSaid()
        => Assert.Contains(
            CheckInPlanner.Plan(Ride() with { Means = [new CommunicationMeans(MeansKind.Telephone) { BatteryLasts = TimeSpan.FromHours(5) }] }).Findings,
            f => f.Code == ContactFindingCodes.BatteryShort);

    [Property]
    [Checks(typeof(CheckInPlanner), CheckKind.Property)]
    public bool Silence_NeverExceedsTheInterval_AndAlarmFollowsOverdue(PositiveInt tolerated, PositiveInt response, PositiveInt hours, bool early)
    {
        CheckInRequest r = Ride(1 + (tolerated.Get % 300 / 10.0), response.Get % 60 / 10.0, 1 + (hours.Get % 500 / 10.0)) with { EarlyAlarm = early };
        CheckInSchedule s = CheckInPlanner.Plan(r);
        bool planned = s.LongestInterval is { } i && i >= TimeSpan.FromMinutes(15);
        return s.AlarmTime > s.OverdueTime
            && s.OverdueTime >= r.LateFinish
            && (!planned || s.LongestSilence <= s.LongestInterval!.Value)
            && s.CheckIns.Select(c => c.Key).Distinct().Count() == s.CheckIns.Count
            && s.CheckIns.All(c => c.Expected <= c.Due && c.Due < c.WatchFrom && c.WatchFrom < c.CallBy)
            && s.First.Kind == CheckInKind.Start && s.Last.Kind == CheckInKind.Finish;
    }

    [Fact]
    [Checks(typeof(CheckInPlanner), CheckKind.BadInput)]
    public void BadRequests_SayWhatIsWrong()
    {
        Assert.Contains("one start", Assert.Throws<ArgumentException>(() => CheckInPlanner.Plan(Ride() with { Points = [] })).Message, StringComparison.Ordinal);
        Assert.Contains("late finish", Assert.Throws<ArgumentException>(() => CheckInPlanner.Plan(Ride() with { LateFinish = Start })).Message, StringComparison.Ordinal);
        Assert.Contains("outside the ride", Assert.Throws<ArgumentException>(() => CheckInPlanner.Plan(Ride() with
        {
            Points = [.. Ride().Points, new DecisionPoint(CheckInKind.Exit, "Gate 3", Start.AddDays(2))],
        })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Ride() with { ToleratedWait = TimeSpan.FromHours(-1) });
        Assert.Throws<ArgumentOutOfRangeException>(() => Ride() with { ContactReaction = TimeSpan.Zero });
        Assert.Throws<ArgumentException>(() => new DecisionPoint(CheckInKind.Exit, "Gate 3", Start, Start.AddHours(-1)));
        Assert.Throws<ArgumentException>(() => new ContactStretch("canyon", Start, Start, Known.No, Known.No));
    }

    [Fact]
    public void PastDates_AreAFinding()
    {
        Assert.Contains(CheckInPlanner.Plan(Ride() with { PreparedAt = Start.AddDays(3) }).Findings, f => f.Code == ContactFindingCodes.InThePast);
        Assert.Contains(CheckInPlanner.Plan(Ride() with { PreparedAt = null }).Findings, f => f.Code == ContactFindingCodes.NowUnknown);
    }

    [Fact]
    public void UnknownZone_IsNamed()
        => Assert.Contains("Nowhere/Town", Assert.Throws<ArgumentException>(() => ZoneOffsets.OfId("Nowhere/Town", Start, Start.AddDays(1))).Message, StringComparison.Ordinal);
}
