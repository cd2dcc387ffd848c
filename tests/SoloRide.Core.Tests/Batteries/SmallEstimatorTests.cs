using FsCheck.Xunit;
using MathNet.Numerics.Distributions;
using SoloRide.Accuracy;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Tests.Batteries;

public sealed class SmallEstimatorTests
{
    [Fact]
    [Checks(typeof(MessageEstimator), CheckKind.BadInput)]
    [Checks(typeof(ChargeEstimator), CheckKind.BadInput)]
    [Checks(typeof(AgeingEstimator), CheckKind.BadInput)]
    [Checks(typeof(DrawEstimator), CheckKind.BadInput)]
    public void Estimators_BadInput_SayWhat()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new MessageAttempts { AttemptProbability = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new MessageAttempts { MostAttempts = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => ChargeEstimator.Estimate(CellPack.LithiumIon(3000), 1.5, Power.FromWatts(5), Temperature.FromDegreesCelsius(20)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PackHistory { Age = TimeSpan.FromDays(-1) });
        var e = Assert.Throws<ArgumentException>(() => DrawEstimator.Learn([new(TimeSpan.FromHours(1), 1, "map"), new(TimeSpan.FromHours(1), 0.9, "map")], CellPack.LithiumIon(3000)));
        Assert.Contains("not after", e.Message, StringComparison.Ordinal);
    }

    /// <summary>Geometric distribution of the general-purpose library MathNet.Numerics.</summary>
    [Theory]
    [InlineData(0.95)]
    [InlineData(0.6)]
    [InlineData(0.25)]
    [Checks(typeof(MessageEstimator), CheckKind.Outside)]
    public void Estimate_Message_IsTheGeometricDistribution(double p)
    {
        MessageCost cost = MessageEstimator.Estimate(new MessageAttempts { AttemptProbability = p, MostAttempts = 7 });
        var geometric = new Geometric(p);
        Assert.Equal(geometric.CumulativeDistribution(7), cost.WithinProbability, 1e-12);
        Assert.True(geometric.CumulativeDistribution(cost.AttemptsFor95) >= 0.95 - 1e-12);
        Assert.True(cost.AttemptsFor95 == 1 || geometric.CumulativeDistribution(cost.AttemptsFor95 - 1) < 0.95);
    }

    [Property]
    [Checks(typeof(MessageEstimator), CheckKind.Property)]
    public void Estimate_WorseSky_NeverCheaper(byte a)
    {
        double p = (1 + (a % 99)) / 100.0;
        MessageCost here = MessageEstimator.Estimate(new MessageAttempts { AttemptProbability = p }), better = MessageEstimator.Estimate(new MessageAttempts { AttemptProbability = Math.Min(1, p + 0.01) });
        Assert.True(better.Expected <= here.Expected + Energy.FromWattHours(1e-12));
        Assert.True(better.WithinProbability >= here.WithinProbability);
        Assert.True(better.AttemptsFor95 <= here.AttemptsFor95);
    }

    /// <summary>A new 2.9 Ah NCA cell at 28 °C, 1C to 4.2 V, 2.7 Ah put in: 45 min of constant current and about 50 min of taper (Kollmeyer 2018, DOI 10.17632/wykht8y7tg).</summary>
    [Fact]
    [Checks(typeof(ChargeEstimator), CheckKind.Outside)]
    public void Estimate_ChargeAtOneC_AsMeasured()
    {
        ChargeTimes times = ChargeEstimator.Estimate(CellPack.LithiumIon(2900, 3.6), 1 - (2.7 / 2.9), Power.FromWatts(20), Temperature.FromDegreesCelsius(28));
        Assert.InRange(95, times.ToFull!.Low.TotalMinutes, times.ToFull.High.TotalMinutes);
        Assert.True(times.To80!.Typical < times.ToFull.Typical * 0.6);
    }

    [Property]
    [Checks(typeof(ChargeEstimator), CheckKind.Property)]
    public void Estimate_FullerOrStronger_NeverSlower(byte soc, byte watts)
    {
        double from = soc / 300.0, w = 1 + (watts / 10.0);
        CellPack pack = CellPack.LithiumIon(4000, 3.85);
        ChargeTimes here = ChargeEstimator.Estimate(pack, from, Power.FromWatts(w), Temperature.FromDegreesCelsius(20));
        Assert.True(ChargeEstimator.Estimate(pack, Math.Min(1, from + 0.05), Power.FromWatts(w), Temperature.FromDegreesCelsius(20)).ToFull!.Typical <= here.ToFull!.Typical);
        Assert.True(ChargeEstimator.Estimate(pack, from, Power.FromWatts(w + 1), Temperature.FromDegreesCelsius(20)).ToFull!.Typical <= here.ToFull.Typical + TimeSpan.FromSeconds(1));
        Assert.True(here.To80!.Typical <= here.ToFull.Typical);
    }

    [Fact]
    public void Estimate_ChargeBelowZero_IsRefused()
    {
        ChargeTimes times = ChargeEstimator.Estimate(CellPack.LithiumIon(3000), 0.2, Power.FromWatts(10), Temperature.FromDegreesCelsius(-1));
        Assert.Null(times.ToFull);
        Assert.Equal(FindingSeverity.Refusal, times.Findings[0].Severity);
        Assert.Null(ChargeEstimator.Estimate(new CellPack(CellChemistry.PrimaryLithium, 3000, 1.5), 0.2, Power.FromWatts(10), Temperature.FromDegreesCelsius(20)).ToFull);
    }

    /// <summary>Schmalstieg et al. 2014, J. Power Sources 257:325: printed constants evaluated by an independent program.</summary>
    [Fact]
    [Checks(typeof(AgeingEstimator), CheckKind.Outside)]
    public void Health_PublishedEquations_AsTabulated()
    {
        foreach (CsvRow r in CsvTable.Read(Repo.Data("batteries", "ageing.csv")).Rows)
        {
            double got = AgeingKernel.CalendarLoss(r.Num("T_C"), r.Num("V_storage"), r.Num("days"));
            Assert.Equal(r.Num("calendar_loss"), got, 1e-6 * Math.Abs(r.Num("calendar_loss")));
        }

        // 25 °C, one year, 3.9 V (about 0.7 of the charge): 3.3 % lost.
        PackAge age = AgeingEstimator.Health(new PackHistory { Age = TimeSpan.FromDays(365), Storage = Temperature.FromDegreesCelsius(25), StorageChargeFraction = 0.74 });
        Assert.InRange(age.CalendarLossFraction, 0.030, 0.037);
    }

    [Property]
    [Checks(typeof(AgeingEstimator), CheckKind.Property)]
    public void Health_OlderWarmerMoreUsed_NeverBetter(byte years, byte warm, byte cycles)
    {
        var history = new PackHistory { Age = TimeSpan.FromDays(25 * years), Storage = Temperature.FromDegreesCelsius(warm % 40), FullCycles = cycles * 4 };
        double here = AgeingEstimator.Health(history).HealthFraction;
        Assert.True(AgeingEstimator.Health(history with { Age = history.Age + TimeSpan.FromDays(30) }).HealthFraction <= here + 1e-12);
        Assert.True(AgeingEstimator.Health(history with { Storage = Temperature.FromDegreesCelsius((warm % 40) + 2) }).HealthFraction <= here + 1e-12);
        Assert.True(AgeingEstimator.Health(history with { FullCycles = history.FullCycles + 20 }).HealthFraction <= here + 1e-12);
    }

    [Property]
    [Checks(typeof(DrawEstimator), CheckKind.Property)]
    public void Learn_ExactLog_GivesTheDraw(byte a, byte b)
    {
        CellPack pack = CellPack.LithiumIon(4000, 3.85);
        double map = 0.2 + (a / 200.0), idle = 0.05 + (b / 3000.0);
        double s1 = 1 - (map * 3 / pack.RatedEnergy.WattHours), s2 = s1 - (idle * 10 / pack.RatedEnergy.WattHours);
        IReadOnlyList<LearnedDraw> learned = DrawEstimator.Learn([new(TimeSpan.Zero, 1, "map"), new(TimeSpan.FromHours(3), s1, "map"), new(TimeSpan.FromHours(13), s2, "idle")], pack);
        Assert.Equal(map, (double)learned.Single(l => l.Mode == "map").Draw.Typical.Watts, 1e-6);
        Assert.Equal(idle, (double)learned.Single(l => l.Mode == "idle").Draw.Typical.Watts, 1e-6);
    }

    [Fact]
    public void CheckClaim_TooLightForItsClaim_IsNotBelieved()
    {
        // 27 027 mAh at 3.7 V are 100 Wh, the limit of cabin baggage without approval (agency wording, second-hand).
        Assert.Equal(AirCarriage.CarryOn, new PowerBank(27_000).AirTravel);
        Assert.Equal(AirCarriage.WithApproval, new PowerBank(27_100).AirTravel);
        Assert.Equal(AirCarriage.Forbidden, new PowerBank(45_000).AirTravel);
        Assert.Contains(new PowerBank(20_000).CheckClaim(Mass.FromGrams(150)), f => f.Code == "batteries.claim-implausible");
        Assert.DoesNotContain(new PowerBank(20_000).CheckClaim(Mass.FromGrams(400)), f => f.Code == "batteries.claim-implausible");
    }
}
