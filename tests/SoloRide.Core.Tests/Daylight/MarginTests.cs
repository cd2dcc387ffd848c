using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Daylight;

namespace SoloRide.Tests.Daylight;

public sealed class MarginTests
{
    private static readonly DateTimeOffset Dusk = new(2027, 10, 3, 19, 10, 0, TimeSpan.FromHours(-6));

    /// <summary>Source: normal law. An arrival with P90 at dusk is late one time in ten; with its median at dusk, one in two.</summary>
    [Fact]
    public void To_NormalArrival_HasTheLawsProbability()
    {
        DaylightMargin p90 = DaylightMargin.To(Dusk, Estimate.Of(Dusk.AddHours(-2), Dusk.AddHours(-3), Dusk));
        Assert.Equal(0.1, p90.LateProbability, 1e-6);
        Assert.Equal(TimeSpan.FromHours(2), p90.Margin.Typical);
        Assert.Equal(TimeSpan.Zero, p90.Margin.Low);
        Assert.Equal(0.5, DaylightMargin.To(Dusk, Estimate.Of(Dusk, Dusk.AddHours(-3), Dusk.AddHours(1))).LateProbability, 1e-9);
        Assert.Equal(1, DaylightMargin.To(Dusk, Estimate.Exact(Dusk.AddMinutes(1))).LateProbability);
        Assert.Equal(0, DaylightMargin.To(Dusk, Estimate.Exact(Dusk.AddMinutes(-1))).LateProbability);
    }

    [Property(MaxTest = 60)]
    [Checks(typeof(DaylightMargin), CheckKind.Property)]
    public bool To_Samples_SharesAreTheirs(int seed)
    {
        var random = new Random(seed);
        DateTimeOffset[] arrivals = [.. Enumerable.Range(0, 1 + random.Next(200)).Select(_ => Dusk.AddMinutes(random.Next(-300, 200)))];
        DaylightMargin m = DaylightMargin.To(Dusk, arrivals);
        return Math.Abs(m.LateProbability - (arrivals.Count(a => a > Dusk) / (double)arrivals.Length)) < 1e-12
            && m.Margin.Low <= m.Margin.Typical && m.Margin.Typical <= m.Margin.High;
    }

    [Fact]
    [Checks(typeof(DaylightMargin), CheckKind.BadInput)]
    [Checks(typeof(DaylightRange), CheckKind.BadInput)]
    public void BadInput_Throws()
    {
        Assert.Throws<ArgumentException>(() => DaylightMargin.To(Dusk, []));
        Assert.Throws<ArgumentNullException>(() => DaylightMargin.To(Dusk, (Estimate<DateTimeOffset>)null!));
        Assert.Throws<ArgumentOutOfRangeException>(() => DaylightRange.Over(new DateOnly(2027, 2, 1), new DateOnly(2027, 1, 1), new GeoPoint(0, 0), ZoneOffsets.Utc));
        Assert.Throws<ArgumentNullException>(() => DaylightRange.Over(new DateOnly(2027, 2, 1), new DateOnly(2027, 3, 1), new GeoPoint(0, 0), null!));
    }

    /// <summary>Source: one-year table of the US Naval Observatory (29 N 81 W), whole minutes: 35 s.</summary>
    [SkippableFact]
    [Checks(typeof(DaylightRange), CheckKind.Outside)]
    public void Over_AYear_HasTheAlmanacsExtremes()
    {
        CsvRow[] rows = [.. CsvTable.Read(Repo.ReferenceFile("daylight", "anchor_usno_sun_riseset.csv")).Rows.Where(r => r["lat"] == "29")];
        ZoneOffsets zone = ZoneOffsets.Fixed(-5.0);
        DateTimeOffset[] rises = [.. rows.Where(r => r["kind"] == "rise").Select(r => zone.ToLocal(Almanac.Utc(r["utc_minute"])))];
        DateTimeOffset[] sets = [.. rows.Where(r => r["kind"] == "set").Select(r => zone.ToLocal(Almanac.Utc(r["utc_minute"])))];
        DaylightRange range = DaylightRange.Over(DateOnly.FromDateTime(rises.Min().DateTime), DateOnly.FromDateTime(rises.Max().DateTime), new GeoPoint(29, -81), zone);
        Close(rises.Min(t => t.TimeOfDay), range.EarliestSunrise!.Value.At.TimeOfDay);
        Close(rises.Max(t => t.TimeOfDay), range.LatestSunrise!.Value.At.TimeOfDay);
        Close(sets.Min(t => t.TimeOfDay), range.EarliestSunset!.Value.At.TimeOfDay);
        Close(sets.Max(t => t.TimeOfDay), range.LatestSunset!.Value.At.TimeOfDay);

        static void Close(TimeSpan truth, TimeSpan got) => Assert.InRange((got - truth).TotalSeconds, -35, 35);
    }

    [Property(MaxTest = 15)]
    [Checks(typeof(DaylightRange), CheckKind.Property)]
    public bool Over_AnyRange_BoundsEachOfItsDays(int seed)
    {
        var random = new Random(seed);
        var place = new GeoPoint((random.NextDouble() * 178) - 89, (random.NextDouble() * 300) - 150);
        DateOnly first = new(1950 + random.Next(150), 1 + random.Next(12), 1);
        ZoneOffsets zone = ZoneOffsets.Fixed(TimeSpan.FromMinutes(Math.Round(place.LonDeg * 4)));
        DaylightRange range = DaylightRange.Over(first, first.AddDays(random.Next(1, 80)), place, zone);
        return range.ShortestDayLength <= range.LongestDayLength && range.Days.All(d =>
            (d.Sunset is not { } s || (zone.ToLocal(s).TimeOfDay >= range.EarliestSunset!.Value.At.TimeOfDay && zone.ToLocal(s).TimeOfDay <= range.LatestSunset!.Value.At.TimeOfDay))
            && SolarDay.On(d.Date, place, zone).DayLength >= range.ShortestDayLength - TimeSpan.FromSeconds(1));
    }
}
