using FsCheck.Xunit;

namespace SoloRide.Tests.Root;

public sealed class ForecastTests
{
    private const string Csv = """
        # place: Lower Gate
        # elevation_m: 1000
        # issued: 2027-06-13T18:00:00-06:00
        time,air_temp_c,rel_humidity_pct,wind_mps,wind_from_deg,gust_mps,cloud_pct,precip_mm,thunder_pct
        2027-06-14T05:00:00-06:00,10,60,4,350,6,0,0,0
        2027-06-14T06:00:00-06:00,12,50,4,10,6,,0.4,10
        """;

    private static Forecast Parse(string text) => new([Forecast.ParsePlace(new StringReader(text), "test.csv")], new ForecastOptions { WindShelterFactor = 1 });

    // Closed form: halfway between two hours; two equal winds 20 deg apart add up to their mean direction times cos 10 deg.
    [Fact]
    public void At_Halfway_IsLinearAndWindIsAVector()
    {
        WeatherAtRider w = Parse(Csv).At(new DateTimeOffset(2027, 6, 14, 5, 30, 0, TimeSpan.FromHours(-6)), new GeoPoint(38, -109, 1000));
        Assert.True(w.Covered);
        Assert.Equal(11, w.Weather.AirTempC, 9);
        Assert.Equal(4 * Math.Cos(Math.PI / 18), w.Weather.WindMps, 9);
        Assert.Equal(0, Math.Min(w.Weather.WindFromDeg, 360 - w.Weather.WindFromDeg), 6);
        Assert.Equal(0.4, w.Weather.PrecipMm);
        Assert.True(double.IsNaN(w.Weather.CloudPct));
    }

    [Fact]
    public void At_HigherPlace_IsColderByTheNamedLapse()
        => Assert.Equal(10 - 6.5, Parse(Csv).At(new DateTimeOffset(2027, 6, 14, 11, 0, 0, TimeSpan.Zero), new GeoPoint(38, -109, 2000)).Weather.AirTempC, 9);

    [Fact]
    public void At_BeforeFirstHour_IsUnknownAndNotCovered()
    {
        WeatherAtRider w = Parse(Csv).At(new DateTimeOffset(2027, 6, 14, 4, 59, 0, TimeSpan.FromHours(-6)), new GeoPoint(38, -109, 1000));
        Assert.False(w.Covered);
        Assert.True(double.IsNaN(w.Weather.AirTempC));
    }

    [Theory]
    [Checks(typeof(Forecast), CheckKind.BadInput)]
    [InlineData("", 0)]
    [InlineData("time,air_temp_c\n", 1)]
    [InlineData("air_temp_c\n10\n", 1)]
    [InlineData("time,temperature\n2027-06-14T05:00:00Z,1\n", 1)]
    [InlineData("time,air_temp_c\n2027-06-14T05:00:00,1\n", 2)]
    [InlineData("time,air_temp_c\n2027-06-14T05:00:00Z,hot\n", 2)]
    [InlineData("time,air_temp_c\n2027-06-14T05:00:00Z,NaN\n", 2)]
    [InlineData("time,air_temp_c\n2027-06-14T05:00:00Z,90\n", 2)]
    [InlineData("time,air_temp_c\n2027-06-14T05:00:00Z,9,9\n", 2)]
    [InlineData("time,air_temp_c\n2027-06-14T05:00:00Z,9\n2027-06-14T05:00:00Z,9\n", 3)]
    public void ParsePlace_BadText_SaysWhere(string text, int line)
    {
        InputFormatException e = Assert.Throws<InputFormatException>(() => Forecast.ParsePlace(new StringReader(text), "bad.csv"));
        Assert.Equal(line, e.Line);
        Assert.Equal("bad.csv", e.SourceName);
    }

    [Property]
    [Checks(typeof(Forecast), CheckKind.Property)]
    public bool At_WithinTheForecast_LiesBetweenItsHours(byte minute)
    {
        double t = Parse(Csv).At(new DateTimeOffset(2027, 6, 14, 11, minute % 60, 0, TimeSpan.Zero), new GeoPoint(38, -109, 1000)).Weather.AirTempC;
        return t >= 10 && t <= 12;
    }
}
