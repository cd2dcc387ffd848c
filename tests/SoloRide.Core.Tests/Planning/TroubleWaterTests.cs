using SoloRide.Batteries;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>After trouble: water against cold and heat, walk against wait.</summary>
public sealed class TroubleWaterTests
{
    private static readonly Outfit Summer = new([new Garment("jersey and shorts", 0.35), new Garment("wind shell", 0.25), new Garment("light insulated jacket", 0.5)]);

    private static RideRequest Ride(double airC, double farmKm = 8, double humidityPct = 40) => Rides.Request(samples: 64) with
    {
        Weather = Rides.Weather(airC, humidityPct),
        WaitingOutfit = Summer,
        Devices = [Device.Messenger("messenger", 1250)],
        Exits = [new ExitPoint { Name = "Farm", AlongRoute = Length.FromKilometers(farmKm) }],
    };

    private static TroubleAdvice Hurt(RideRequest r, double waterL, TroubleKind kind = TroubleKind.Injured) => RidePlanner.AfterTrouble(r, new TroubleNews
    {
        Kind = kind, AlongRoute = Length.FromKilometers(9.5), At = Rides.Start.AddHours(1.5), WaterInHand = Volume.FromLiters(waterL),
    });

    // A way out that is near is not closed by a little water missing while the wait would freeze the rider.
    [Theory]
    [InlineData(0)]
    [InlineData(0.2)]
    [InlineData(0.4)]
    public void Cold_NearFarm_IsWalkedTo(double waterL)
    {
        TroubleAdvice a = Hurt(Ride(4), waterL);
        Assert.True(a.Wait.Tolerable.Time < a.Wait.Wait, a.Reason);
        Assert.Contains(a.Choice, new[] { TroubleChoice.Walk, TroubleChoice.CallThenWalk });
        Assert.Contains("Farm", a.Reason, StringComparison.Ordinal);
        Assert.Contains("Farm", a.Messages[0], StringComparison.Ordinal);
    }

    // Far and short of water in the cold: call, then walk, with the amount that is short; the message says so too.
    [Fact]
    public void Cold_FarAndShort_IsCallThenWalk_WithTheAmount()
    {
        TroubleAdvice a = Hurt(Ride(4, 1.5), 0.1);
        Assert.Equal(TroubleChoice.CallThenWalk, a.Choice);
        TroubleWay w = a.Ways.Where(x => x.Lit).MinBy(x => x.Water!.Value.Liters)!;
        Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"about {w.Missing!.Value.Liters:F1} L short"), a.Reason, StringComparison.Ordinal);
        Assert.StartsWith("HELP ", a.Messages[0], StringComparison.Ordinal);
        Assert.Contains("walking to", a.Messages[0], StringComparison.Ordinal);
        Assert.Contains("Call for help now, then walk", a.ToText(), StringComparison.Ordinal);
        Assert.All(a.Messages, m => Assert.True(m.Length <= 160, m));
    }

    // In great heat the wait in the shade takes less water than the walk: nobody is sent into it short of water.
    [Fact]
    public void Heat_FarAndShort_IsNotWalked()
        => Assert.Equal(TroubleChoice.Call, Hurt(Ride(43, 1.5), 0.3).Choice);

    // One margin over time and sweat, below what can be drunk: the walk's water stays under the hourly maximum and under high sweat over the high time.
    [Theory]
    [InlineData(4)]
    [InlineData(25)]
    [InlineData(42)]
    public void Walk_TakesNoMoreThanCanBeDrunk_AndOneMargin(double airC)
    {
        RideRequest r = Ride(airC, 1.5);
        foreach (TroubleWay w in Hurt(r, 1).Ways)
        {
            Weather at = new() { AirTempC = airC, RelHumidityPct = 40, WindMps = 2, WindFromDeg = 200, CloudPct = 20, PrecipMm = 0 };
            Assert.True(w.Water!.Value.Liters <= 1.5 * 0.946352946 * w.Time.High.TotalHours + 1e-9);
            var rate = SweatRateEstimator.Estimate(new SweatConditions { Rider = r.Rider, Weather = at, MetabolicRate = Power.FromWatts(5.5 * 76), ClothingClo = 0.4 });
            Assert.True(w.Water.Value.Liters < 0.8 * rate.Rate.High.LitersPerHour * w.Time.High.TotalHours);
            Assert.True(w.Water.Value.Liters >= Math.Min(0.8 * rate.Rate.Typical.LitersPerHour * w.Time.Typical.TotalHours, 1.5 * 0.946352946 * w.Time.High.TotalHours) * 0.9);
        }
    }

    // No water is not no time: a body may lose 2 % of its mass (ACSM 2007) before the wait counts as not borne; at 20 C that is half a day.
    [Fact]
    public void NoWater_LeavesTheTimeToTheDeficit()
    {
        TroubleAdvice a = Hurt(Ride(20), 0, TroubleKind.CannotMove);
        TimeSpan water = a.Wait.Tolerable.Limits.Single(l => l.Name == "water").Time;
        Assert.Equal(0.02 * 76 / (3 * 0.946353) * 24, water.TotalHours, 2);
        Assert.DoesNotContain("borne 0 min", a.ToText(), StringComparison.Ordinal);
    }

    // Heat raises what a wait takes, and shade replaces the bag; humid heat that no sweat cools limits the wait itself.
    [Fact]
    public void Heat_TakesMoreWater_NoBag_AndLimitsTheWaitWhenHumid()
    {
        RidePlan hot = RidePlanner.Plan(Ride(42, humidityPct: 15)), mild = RidePlanner.Plan(Ride(18));
        Assert.DoesNotContain("barrier bag", string.Join(" ", hot.CannotMove!.Carry), StringComparison.Ordinal);
        Assert.Contains("shade", string.Join(" ", hot.CannotMove.Carry), StringComparison.Ordinal);
        Assert.Contains("barrier bag", string.Join(" ", mild.CannotMove!.Carry), StringComparison.Ordinal);
        double Need(RidePlan p) => double.Parse(p.CannotMove!.Carry[0].Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);
        Assert.True(Need(hot) > 2.5 * Need(mild));
        TroubleAdvice humid = Hurt(Ride(36, humidityPct: 85), 6, TroubleKind.CannotMove);
        Assert.Equal("heat", humid.Wait.Tolerable.Binding);
        Assert.Contains("heat, even in the shade", humid.ToText(), StringComparison.Ordinal);
    }

    // The two figures of one wait are told with what they hold; the cold limit says for whom it is.
    [Fact]
    public void Wait_SaysItsParts_AndForWhomTheColdLimitIs()
    {
        string text = string.Join(" ", Hurt(Ride(4), 2, TroubleKind.CannotMove).ToText().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("24 h 30 after a call: 30 min until somebody acts, 24 h 00 response", text, StringComparison.Ordinal);
        Assert.Contains("cold, lying exhausted", text, StringComparison.Ordinal);
        RidePlan plan = RidePlanner.Plan(Ride(4));
        Assert.Contains(plan.Findings, f => f.Message.Contains("resting, after", StringComparison.Ordinal) && f.Message.Contains("lying exhausted", StringComparison.Ordinal));
        Assert.Contains(plan.Findings, f => f.Message.Contains("The wait of 24 h 30 (reaction 30 min, response 24 h 00)", StringComparison.Ordinal));
    }

    [Fact]
    public void Messages_AreOnTheClockOfTheRide()
    {
        RideRequest r = Ride(15);
        var news = new TroubleNews { Kind = TroubleKind.BikeDead, AlongRoute = Length.FromKilometers(9.5), At = Rides.Start.AddHours(1.5), WaterInHand = Volume.FromLiters(2) };
        TroubleAdvice local = RidePlanner.AfterTrouble(r, news), utc = RidePlanner.AfterTrouble(r, news with { At = news.At.ToUniversalTime() });
        Assert.Equal(local.Messages, utc.Messages);
        Assert.Equal(local.ToText(), utc.ToText());
        Assert.Contains("UTC-6", utc.Messages[0], StringComparison.Ordinal);
    }

    // Kit is judged in the coldest hour of the wait, the same that the plan tells.
    [Fact]
    public void Kit_IsJudgedInTheColdestHourOfTheWait()
    {
        var hours = Enumerable.Range(0, 73).Select(h => new ForecastHour(Rides.Start.AddHours(h - 8), new Weather
        {
            AirTempC = 16 - (10 * Math.Cos(2 * Math.PI * (h - 4) / 24.0)), RelHumidityPct = 40, WindMps = 2, WindFromDeg = 200, CloudPct = 20, PrecipMm = 0, ThunderPct = 0,
        }));
        RideRequest r = Ride(16) with
        {
            Weather = new([new ForecastPlace("test", null, hours)]),
            KitItems = [new SoloRide.Kit.KitItem("barrier bag", Mass.FromGrams(110), Volume.FromLiters(0.3), SoloRide.Kit.KitPlace.Pack, SoloRide.Kit.KitFunction.BarrierBag)],
        };
        RidePlan plan = RidePlanner.Plan(r);
        string told = plan.CannotMove!.Carry.Single(c => c.Contains("barrier bag for", StringComparison.Ordinal)).Split(" for ")[1];
        Assert.Contains(plan.Carry, c => c.Name == "barrier bag" && c.Reason.EndsWith("at " + told, StringComparison.Ordinal));
        Assert.Equal("6 C", told);
        RidePlan warm = RidePlanner.Plan(Ride(32) with { KitItems = r.KitItems });
        Assert.DoesNotContain(warm.Carry, c => c.Name == "barrier bag");
    }
}
