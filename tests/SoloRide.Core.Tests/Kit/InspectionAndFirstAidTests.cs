using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Tests.Kit;

public sealed class InspectionAndFirstAidTests
{
    [Fact]
    public void LongForm_HoldsTheShortOne_AndShowsTheDifference()
    {
        InspectionSheet local = InspectionSheet.For(InspectionForm.Local), remote = InspectionSheet.For(InspectionForm.Remote);
        Assert.Empty(local.AddedForRemote);
        Assert.True(local.Checks.All(remote.Checks.Contains));
        Assert.Equal(remote.Checks.Count - local.Checks.Count, remote.AddedForRemote.Count);
        Assert.Equal(Enum.GetValues<BikeSystem>().Length, remote.Checks.Select(c => c.System).Distinct().Count());
        Assert.All(remote.ToPlainText().Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        Assert.DoesNotContain(" + ", local.ToPlainText(), StringComparison.Ordinal);
    }

    [Fact]
    public void FaultsAndLimits_AreNamed_AndVoidThePlan()
    {
        InspectionSheet sheet = InspectionSheet.For(
            InspectionForm.Local,
            [
                new ServiceRecord("brakes.pads") { WearFactor = 1.1 },
                new ServiceRecord("tyres.sealant") { DoneOn = new DateOnly(2025, 1, 1), MostDays = 90 },
                new ServiceRecord("drivetrain.chain") { RiddenSince = Length.FromKilometers(1600), MostRidden = Length.FromKilometers(1500) },
            ],
            new DateOnly(2025, 6, 1));
        Assert.True(sheet.PlanIsVoid);
        Assert.Contains(sheet.Findings, f => f.Code == KitFindingCodes.InspectionWorn && f.Message.Contains("void", StringComparison.Ordinal));
        Assert.Equal(2, sheet.Findings.Count(f => f.Code == KitFindingCodes.InspectionDue));
        Assert.Contains(sheet.Findings, f => f.Message.Contains("last done 2025-01-01, 151 days before the ride", StringComparison.Ordinal));
        Assert.All(sheet.ToPlainText().Split('\n'), line => Assert.InRange(line.Length, 0, 80));
        Assert.Contains("Local rules, closures and fire bans come first.", sheet.ToPlainText().ReplaceLineEndings(" "), StringComparison.Ordinal);
        InspectionSheet soft = InspectionSheet.For(InspectionForm.Local, [new ServiceRecord("tyres.sealant") { DoneOn = new DateOnly(2025, 1, 1), MostDays = 90 }], new DateOnly(2025, 6, 1));
        Assert.False(soft.PlanIsVoid);
    }

    [Fact]
    [Checks(typeof(InspectionSheet), CheckKind.BadInput)]
    public void Records_ThatNameNothing_OrLieAhead_AreRefused()
    {
        Assert.Contains("brakes.pads", Assert.Throws<ArgumentException>(() => InspectionSheet.For(InspectionForm.Local, [new ServiceRecord("brakes.colour")])).Message, StringComparison.Ordinal);
        Assert.Contains("more than one", Assert.Throws<ArgumentException>(() => InspectionSheet.For(InspectionForm.Local, [new("brakes.pads"), new("brakes.pads")])).Message, StringComparison.Ordinal);
        Assert.Contains("after the ride", Assert.Throws<ArgumentException>(() => InspectionSheet.For(
            InspectionForm.Local, [new ServiceRecord("brakes.pads") { DoneOn = new DateOnly(2026, 1, 1), MostDays = 10 }], new DateOnly(2025, 1, 1))).Message, StringComparison.Ordinal);
        Assert.Contains("2026-01-01", Assert.Throws<ArgumentException>(() => InspectionSheet.For(
            InspectionForm.Local, [new ServiceRecord("brakes.pads") { DoneOn = new DateOnly(2026, 1, 1) }], new DateOnly(2025, 1, 1))).Message, StringComparison.Ordinal);
        Assert.ThrowsAny<ArgumentException>(() => new ServiceRecord("brakes.pads") { Fault = (Known)9 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new ServiceRecord("brakes.pads") { WearFactor = -1 });
    }

    [Fact]
    public void FirstAid_InWords_NamesWhatIsMissing()
    {
        FirstAidReview review = FirstAidReview.Of([], TimeSpan.FromHours(5));
        Assert.Contains(review.Findings, f => f.Message == "For heavy bleeding the bag lacks pressure bandage, gloves; others arrive after 5 h 00 at the worst place.");
        Assert.StartsWith("Injuries that the bag does not answer in full: graze, heavy bleeding, blister, sprain", review.ToString(), StringComparison.Ordinal);
    }

    [Property]
    [Checks(typeof(InspectionSheet), CheckKind.Property)]
    public bool MoreWear_NeverMendsThePlan(PositiveInt a, PositiveInt b)
    {
        double low = Math.Min(a.Get, b.Get) % 90 / 30.0, high = low + (b.Get % 30 / 30.0);
        bool At(double wear) => InspectionSheet.For(InspectionForm.Remote, [new ServiceRecord("brakes.pads") { WearFactor = wear }]).PlanIsVoid;
        return !At(low) || At(high);
    }

    /// <summary>Published rates: 3.6 (Zhao et al. 2023), 8.4 (Taylor and Ranse), 38.3 (Palmer et al. 2021) per 1 000 h; injury_probability_checks.csv.</summary>
    [Fact]
    [Checks(typeof(FirstAidReview), CheckKind.Outside)]
    public void InjuryProbability_OfTable_IsTheSame()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("planning", "injury_probability_checks.csv")).Rows)
        {
            string[] words = row["rate"].Split('_');
            double rate = double.Parse(words[^3], System.Globalization.CultureInfo.InvariantCulture);
            InjurySetting setting = rate < 5 ? InjurySetting.ClubRiding : rate < 20 ? InjurySetting.MarathonEvent : InjurySetting.EnduroRacing;
            Assert.InRange(Math.Abs(FirstAidReview.InjuryProbability(setting, TimeSpan.FromHours(row.Num("hours"))) - row.Num("P_at_least_one")), 0, 0.51e-5);
        }
    }

    [Fact]
    public void FirstAid_LongWait_AsksForMore_AndExpiredDoesNotCount()
    {
        FirstAidItem[] bag =
        [
            new("plasters", FirstAidUse.Dressing), new("wipes", FirstAidUse.WoundCleaning) { ExpiresOn = new DateOnly(2024, 5, 1) },
            new("bandage", FirstAidUse.PressureBandage), new("gloves", FirstAidUse.Gloves), new("tape", FirstAidUse.BlisterCare),
            new("own tablets", FirstAidUse.OwnMedicine) { IsAntiInflammatory = true },
        ];
        FirstAidReview near = FirstAidReview.Of(bag, TimeSpan.FromMinutes(20), new DateOnly(2025, 6, 1));
        Assert.Equal(InjuryKind.Graze, Assert.Single(near.Gaps).Injury);
        Assert.Contains(near.Findings, f => f.Code == KitFindingCodes.Expired && f.Subject == "wipes");
        Finding caution = Assert.Single(near.Findings, f => f.Code == KitFindingCodes.AntiInflammatory);
        Assert.Contains("doctor", caution.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("mg", caution.Message, StringComparison.Ordinal);
        Assert.Contains(FirstAidReview.Of(bag, TimeSpan.FromHours(6)).Gaps, g => g.Injury == InjuryKind.Fracture);
    }

    [Property]
    [Checks(typeof(FirstAidReview), CheckKind.Property)]
    public bool LongerWait_NeverHasFewerGaps_AndMoreHoursMoreChance(PositiveInt a, PositiveInt b)
    {
        TimeSpan s = TimeSpan.FromMinutes(a.Get % 600), l = s + TimeSpan.FromMinutes(b.Get % 600);
        FirstAidItem[] bag = [new("plasters", FirstAidUse.Dressing)];
        return FirstAidReview.Of(bag, l).Gaps.Count >= FirstAidReview.Of(bag, s).Gaps.Count
            && FirstAidReview.InjuryProbability(InjurySetting.ClubRiding, l) >= FirstAidReview.InjuryProbability(InjurySetting.ClubRiding, s);
    }

    [Fact]
    [Checks(typeof(FirstAidReview), CheckKind.BadInput)]
    public void NegativeTimes_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FirstAidReview.Of([], TimeSpan.FromHours(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => FirstAidReview.InjuryProbability(InjurySetting.ClubRiding, TimeSpan.FromHours(-1)));
        Assert.Throws<ArgumentException>(() => new FirstAidItem(" ", FirstAidUse.Gloves));
    }
}
