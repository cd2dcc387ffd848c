using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Heat, gale, frost, rain and height beyond what a plan judges are told on the page, with place and time.</summary>
public sealed class ExtremeConditionsTests
{
    private static Forecast Sky(double airC = 15, double windMps = 2, double gustMps = 3, double rainMm = 0, int fromHour = 0, int hours = 72, Func<int, double>? rainAt = null)
        => new([new ForecastPlace("test", null, Enumerable.Range(0, hours + 1).Select(h => new ForecastHour(
            new DateTimeOffset(2027, 6, 14, 0, 0, 0, TimeSpan.FromHours(-6)).AddHours(fromHour + h),
            new Weather { AirTempC = airC, RelHumidityPct = 40, WindMps = windMps, WindFromDeg = 200, GustMps = gustMps, CloudPct = 20, PrecipMm = rainAt?.Invoke(h) ?? rainMm, ThunderPct = 0 })))]);

    private static RidePlan With(Forecast sky, RideRoute? route = null, Func<RideRequest, RideRequest>? more = null)
    {
        RideRequest r = Rides.Request(route, 128) with { Weather = sky };
        return RidePlanner.Plan(more?.Invoke(r) ?? r);
    }

    private static string Flat(string text) => string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    private static string Page(RidePlan plan) => Flat(plan.ToText(new PlanTextOptions { Details = false }));

    // Source: bouchama-2002, heat stroke above 40 C: beyond it no figure of a model is worth telling.
    [Theory]
    [InlineData(45)]
    [InlineData(55)]
    public void Heat_PastAnyBearableValue_IsSaidWithoutAFigure(double airC)
    {
        RidePlan plan = With(Sky(airC), Rides.Line(30));
        Assert.True(plan.Heat!.PastBearable);
        string page = Page(plan);
        Assert.Contains("past any bearable value", page, StringComparison.Ordinal);
        string core = plan.Heat.HighestCore.Typical.DegreesCelsius.ToString("F1", System.Globalization.CultureInfo.InvariantCulture);
        Assert.DoesNotContain(core + " C", Flat(plan.ToText()), StringComparison.Ordinal);
        Finding heat = plan.Findings.Single(f => f.Code == "planning.core-heat");
        Assert.Equal(FindingSeverity.Warning, heat.Severity);
        Assert.Contains("\"past_bearable\": true", plan.ToJson(), StringComparison.Ordinal);
        Assert.Contains("past any bearable value", Flat(plan.ToTrailheadNote()), StringComparison.Ordinal);
    }

    [Fact]
    public void Heat_OfAMildDay_KeepsItsFigure()
    {
        RidePlan plan = With(Sky(20));
        Assert.False(plan.Heat!.PastBearable);
        Assert.Contains("Body core by model 3", Page(plan), StringComparison.Ordinal);
        Assert.Contains("\"past_bearable\": false", plan.ToJson(), StringComparison.Ordinal);
    }

    // Source: wmo-beaufort, force 8 from 17.2 m/s.
    [Theory]
    [InlineData(40, 60, true)]
    [InlineData(10, 18, true)]
    [InlineData(17.3, double.NaN, true)]
    [InlineData(10, 17, false)]
    public void Gale_InTheForecast_IsWarnedOf(double windMps, double gustMps, bool warned)
    {
        RidePlan plan = With(Sky(10, windMps, gustMps));
        Finding[] gale = [.. plan.Findings.Where(f => f.Code == "planning.gale")];
        Assert.Equal(warned, gale.Length == 1);
        Assert.Equal(warned, Page(plan).Contains("Gale: wind or gusts up to", StringComparison.Ordinal));
        if (warned)
        {
            Assert.Equal(FindingSeverity.Warning, gale[0].Severity);
            Assert.Contains("at km 0", gale[0].Message, StringComparison.Ordinal);
            Assert.Contains("(08:", gale[0].Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Frost_TellsBottlesFiltersHands_AndThatTheClothingStandsIn()
    {
        string page = Page(With(Sky(-30)));
        Assert.Contains("Air below freezing, down to -30 C", page, StringComparison.Ordinal);
        Assert.Contains("filter", page, StringComparison.Ordinal);
        Assert.Contains("0.4 clo", page, StringComparison.Ordinal);
        Assert.DoesNotContain("clo, which", Page(With(Sky(-30), more: r => r with { Options = r.Options with { ClothingClo = 2 } })), StringComparison.Ordinal);
        Assert.DoesNotContain("below freezing", Page(With(Sky(1))), StringComparison.Ordinal);
    }

    // Source: ams-rain, heavy above 7.6 mm in an hour. Rain of the afternoon is first met in the afternoon.
    [Fact]
    public void HeavyRain_IsToldWithPlaceAndTime()
    {
        RidePlan plan = With(Sky(rainAt: h => h >= 10 ? 8 : 0), Rides.Line(40));
        Finding rain = plan.Findings.Single(f => f.Code == "planning.heavy-rain");
        Assert.Equal(FindingSeverity.Warning, rain.Severity);
        Assert.Contains("up to 8 mm in an hour", rain.Message, StringComparison.Ordinal);
        Assert.Contains("(09:", rain.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("km 0.", rain.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(With(Sky(rainMm: 7)).Findings, f => f.Code == "planning.heavy-rain");
    }

    [Fact]
    public void Height_IsWarnedOf_UnlessTheRiderIsUsedToIt_AndAlwaysWhenVeryHigh()
    {
        Assert.Contains("Above 3 000 m from km 0.", Page(With(Sky(5), Rides.Line(baseM: 5500))), StringComparison.Ordinal);
        Assert.Contains(With(Sky(5), Rides.Line(baseM: 5500), r => r with { Rider = r.Rider with { AltitudeAcclimatised = Known.Yes } }).Findings, f => f.Code == "planning.high-ground");
        Assert.Contains(With(Sky(5), Rides.Line(baseM: 3500)).Findings, f => f.Code == "planning.high-ground" && f.Severity == FindingSeverity.Warning);
        Assert.DoesNotContain(With(Sky(5), Rides.Line(baseM: 3500), r => r with { Rider = r.Rider with { AltitudeAcclimatised = Known.Yes } }).Findings, f => f.Code == "planning.high-ground");
        Assert.DoesNotContain(With(Sky()).Findings, f => f.Code == "planning.high-ground");
    }

    [Fact]
    public void Forecast_ThatDoesNotReachTheRide_IsAWarningInTheShortOutputs()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 128) with { Start = Rides.Start.AddDays(9), PreparedAt = null });
        Assert.Equal(FindingSeverity.Warning, plan.Findings.Single(f => f.Code == "planning.forecast-short").Severity);
        foreach (string text in new[] { Page(plan), Flat(plan.ToTrailheadNote()), Flat(plan.ToEveningList()) })
        {
            Assert.Contains("The forecast does not reach the ride", text, StringComparison.Ordinal);
        }

        RidePlan part = RidePlanner.Plan(Rides.Request(samples: 128) with { Weather = Rides.Weather(hours: 9), PreparedAt = null });
        Assert.Contains("does not cover the whole ride", Flat(part.ToTrailheadNote()), StringComparison.Ordinal);
    }

    [Fact]
    public void CompareDays_NamesTheUncoveredDay_AndDoesNotTakeIt()
    {
        // A day without a forecast holds the mild last hour; the covered day is hot and worse on paper.
        Forecast hotThenMild = new([new ForecastPlace("test", null, Enumerable.Range(0, 25).Select(h => new ForecastHour(
            new DateTimeOffset(2027, 6, 14, 0, 0, 0, TimeSpan.FromHours(-6)).AddHours(h),
            new Weather { AirTempC = h < 20 ? 36 : 12, RelHumidityPct = 40, WindMps = 2, WindFromDeg = 200, GustMps = 3, CloudPct = 20, PrecipMm = 0, ThunderPct = 0 })))]);
        PlanComparison c = RidePlanner.CompareDays(Rides.Request(Rides.Line(40), 128) with { Weather = hotThenMild, PreparedAt = null }, [new DateOnly(2027, 6, 14), new DateOnly(2027, 6, 18)]);
        Assert.Equal(c.Alternatives[0].Name, c.Best.Name);
        string text = Flat(c.ToText());
        Assert.Contains("The forecast does not reach the ride", text, StringComparison.Ordinal);
        Assert.Contains("What no forecast covers is not compared", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Comparison_OfEquals_SaysThatTheyAreEqual()
    {
        RideRequest r = Rides.Request(samples: 128);
        string text = Flat(RidePlanner.Compare([("One", r), ("Two", r), ("Late", r with { Start = r.Start.AddHours(12.5) })]).ToText());
        Assert.Contains("One or Two: equal in all that is told here", text, StringComparison.Ordinal);
        Assert.DoesNotContain("One: the best verdict", text, StringComparison.Ordinal);
    }
}
