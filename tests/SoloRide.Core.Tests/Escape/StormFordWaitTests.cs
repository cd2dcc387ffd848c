using FsCheck.Xunit;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

public sealed class StormFordWaitTests
{
    /// <summary>Published: at 30 s the storm is within 6 miles (university lightning page, rule LT1); 30 minutes after the last thunder (LT2); heard to 10 miles (LT4).</summary>
    [Fact]
    [Checks(typeof(ThunderThreshold), CheckKind.Outside)]
    public void Thunder_PublishedFigures()
    {
        ThunderThreshold t = ThunderThreshold.For(TimeSpan.Zero, Speed.Zero, danger: Length.FromMeters(1));
        Assert.Equal(30, t.FlashToBang.TotalSeconds);
        Assert.InRange(ThunderThreshold.StrikeDistance(TimeSpan.FromSeconds(30), Temperature.FromDegreesCelsius(20)).Miles, 6, 6.5);
        Assert.Equal(30, ThunderThreshold.WaitAfterLastThunder.TotalMinutes);
        Assert.Equal(10, ThunderThreshold.AudibleDistance.Miles, 9);
        Assert.True(t.IsAudible);
        Assert.Contains(t.Findings, f => f.Code == EscapeFindingCodes.FirstStrike);
    }

    /// <summary>Own arithmetic: 11 m/s, 25 minutes to shelter, 343 m/s: 77 s, farther than thunder is heard (47 s).</summary>
    [Fact]
    public void Thunder_SlowRetreat_IsBeyondHearing()
    {
        ThunderThreshold t = ThunderThreshold.For(TimeSpan.FromMinutes(25), Speed.FromMetersPerSecond(11), Temperature.FromDegreesCelsius(19.65));
        Assert.Equal(77.3, t.FlashToBang.TotalSeconds, 1);
        Assert.False(t.IsAudible);
        Assert.Contains(t.Findings, f => f.Code == EscapeFindingCodes.ThunderUnheard);
    }

    [Fact]
    [Checks(typeof(ThunderThreshold), CheckKind.BadInput)]
    public void Thunder_BadInput()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ThunderThreshold.For(TimeSpan.FromMinutes(-1), Speed.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => ThunderThreshold.For(TimeSpan.Zero, Speed.FromMetersPerSecond(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ThunderThreshold.For(TimeSpan.Zero, Speed.Zero, Temperature.FromDegreesCelsius(-100)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ThunderThreshold.StrikeDistance(TimeSpan.FromSeconds(-1)));
    }

    /// <summary>A longer way to shelter or a faster storm never lowers the threshold; it is never below 30 s.</summary>
    [Property]
    [Checks(typeof(ThunderThreshold), CheckKind.Property)]
    public void Thunder_Laws(byte minutes, byte mps)
    {
        TimeSpan shelter = TimeSpan.FromMinutes(minutes);
        Speed v = Speed.FromMetersPerSecond(mps / 8.0);
        TimeSpan t = ThunderThreshold.For(shelter, v).FlashToBang;
        Assert.True(t.TotalSeconds >= 30);
        Assert.True(ThunderThreshold.For(shelter + TimeSpan.FromMinutes(1), v).FlashToBang >= t);
        Assert.True(ThunderThreshold.For(shelter, v + Speed.FromMetersPerSecond(1)).FlashToBang >= t);
    }

    /// <summary>Published limits: 0.4 m²/s design value (Cox et al., rule XR2), 1.2 m of depth or 0.8 m/s in shallow water (XR3).</summary>
    [Theory]
    [Checks(typeof(FordLimit), CheckKind.Outside)]
    [InlineData(0.5, 0.79, FordVerdict.Doubtful)]
    [InlineData(0.52, 0.79, FordVerdict.DoNotCross)]
    [InlineData(1.21, 0, FordVerdict.DoNotCross)]
    [InlineData(0.3, 0.81, FordVerdict.DoNotCross)]
    [InlineData(0.05, 0.9, FordVerdict.Doubtful)]
    [InlineData(0.3, 0.5, FordVerdict.BelowLimit)]
    [InlineData(0.4, 0.5, FordVerdict.Doubtful)]
    public void Ford_Verdicts(double depthM, double mps, FordVerdict expected)
    {
        FordLimit ford = FordLimit.Judge(Length.FromMeters(depthM), Speed.FromMetersPerSecond(mps));
        Assert.Equal(expected, ford.Verdict);
        Assert.Equal(expected switch { FordVerdict.DoNotCross => "do not cross", FordVerdict.Doubtful => "doubtful: do not cross alone", _ => "below the limit used, check on the spot" }, ford.Words);
    }

    [Fact]
    [Checks(typeof(FordLimit), CheckKind.BadInput)]
    public void Ford_BadInput()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FordLimit.Judge(Length.FromMeters(-0.1), Speed.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => FordLimit.Judge(Length.FromMeters(1), Speed.FromMetersPerSecond(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => FordLimit.TimeUntil(FordVerdict.BelowLimit, Length.Zero, Speed.Zero, Length.Zero, Speed.Zero));
    }

    /// <summary>Deeper or faster is never judged milder; a little before the stated time a rising ford is judged milder than just after it.</summary>
    [Property]
    [Checks(typeof(FordLimit), CheckKind.Property)]
    public void Ford_Laws(byte d, byte v, byte rd, byte rv)
    {
        double depth = d / 250.0, speed = v / 250.0, riseD = rd / 1000.0, riseV = rv / 1000.0;
        FordVerdict now = Judge(depth, speed);
        Assert.True(Judge(depth + 0.1, speed) >= now && Judge(depth, speed + 0.1) >= now);
        foreach (FordVerdict limit in new[] { FordVerdict.Doubtful, FordVerdict.DoNotCross })
        {
            TimeSpan? t = FordLimit.TimeUntil(limit, Length.FromMeters(depth), Speed.FromMetersPerSecond(speed), Length.FromMeters(riseD), Speed.FromMetersPerSecond(riseV));
            if (t is { } at)
            {
                double h = at.TotalHours;
                Assert.True(Judge(depth + (riseD * (h + 1e-3)), speed + (riseV * (h + 1e-3))) >= limit);
                Assert.True(h == 0 || Judge(depth + (riseD * h * 0.999), speed + (riseV * h * 0.999)) < limit);
            }
            else
            {
                Assert.True(Judge(depth + (riseD * 239), speed + (riseV * 239)) < limit);
            }
        }

        static FordVerdict Judge(double m, double mps) => FordLimit.Judge(Length.FromMeters(m), Speed.FromMetersPerSecond(mps)).Verdict;
    }

    /// <summary>Anchors: mean response 3 h (second-hand, SR2), mean mission 5 h (SR1), within 24 h (SR6), 51 h (SR3), beacon 24 h (SR14); 58.2 W/m² at 5 °C: 4.08 clo (own arithmetic).</summary>
    [Fact]
    [Checks(typeof(WaitingPlanner), CheckKind.Outside)]
    public void Waiting_ClassesAndNeeds()
    {
        Assert.Equal([3, 6, 24, 48], Enum.GetValues<ResponseClass>().Select(c => WaitingPlanner.ResponseTime(c).TotalHours));
        WaitingPlan plan = WaitingPlanner.Plan(new WaitingSituation
        {
            BeaconLife = TimeSpan.FromHours(24),
            Water = Volume.FromLiters(4),
            ColdLimit = TimeSpan.FromHours(30),
            Air = Temperature.FromDegreesCelsius(5),
            ChargeDraw = Power.FromWatts(0.5),
        });
        Assert.Equal(4.08, plan.InsulationNeededClo!.Value, 2);
        Assert.Equal(24, plan.Wait.TotalHours);
        Assert.Equal("beacon", plan.Tolerable.Binding);
        Assert.Contains(plan.Findings, f => f.Code == EscapeFindingCodes.WaitShort && f.Message.Contains("no reserve", StringComparison.Ordinal));
        Assert.Null(plan.LongestInterval);
        Assert.Equal(12, plan.ChargeNeeded!.Value.WattHours, 9);
        // 3 US quarts a day for one day.
        Assert.Equal(3 * 0.946353, plan.WaterNeeded.Liters, 9);
    }

    [Fact]
    [Checks(typeof(WaitingPlanner), CheckKind.BadInput)]
    public void Waiting_BadInput_AndUnknownsAreSaid()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => WaitingPlanner.Detection(TimeSpan.Zero, TimeSpan.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => WaitingPlanner.Detection(TimeSpan.FromHours(1), TimeSpan.FromHours(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WaitingSituation { Water = Volume.FromLiters(-1) });
        Assert.Throws<ArgumentOutOfRangeException>(() => WaitingPlanner.InsulationClo(0, Temperature.FromDegreesCelsius(0)));
        WaitingPlan plan = WaitingPlanner.Plan(new WaitingSituation());
        Assert.Null(plan.Tolerable.Time);
        Assert.Contains(plan.Findings, f => f.Code == EscapeFindingCodes.WaitUnknown && f.Message.Contains("cold, water", StringComparison.Ordinal));
    }

    /// <summary>A check-in interval not above the longest keeps the worst wait tolerable; a longer grace never helps.</summary>
    [Property]
    [Checks(typeof(WaitingPlanner), CheckKind.Property)]
    public void Waiting_LongestInterval_KeepsTheWaitTolerable(byte coldHours, byte graceMin, byte reactionMin, byte c)
    {
        var situation = new WaitingSituation { ColdLimit = TimeSpan.FromHours(coldHours) };
        TimeSpan grace = TimeSpan.FromMinutes(graceMin), reaction = TimeSpan.FromMinutes(reactionMin);
        var response = (ResponseClass)(c % 4);
        TimeSpan? longest = WaitingPlanner.Plan(situation, response, TimeSpan.FromHours(1), grace, reaction).LongestInterval;
        Assert.Equal(longest is null, coldHours * 60 <= graceMin + reactionMin + WaitingPlanner.ResponseTime(response).TotalMinutes);
        if (longest is { } i)
        {
            WaitingPlan at = WaitingPlanner.Plan(situation, response, i, grace, reaction);
            Assert.Equal(at.Wait, TimeSpan.FromHours(coldHours));
            Assert.True(WaitingPlanner.Plan(situation, response, i, grace + TimeSpan.FromMinutes(1), reaction).Wait > at.Wait);
        }
    }
}
