using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Internal;

namespace SoloRide.Tests.Root;

public sealed class GridTests
{
    // Half a unit of the table's last digit (0.1 mm) twice: both programs round.
    private const double UtmToleranceM = 0.0002;
    private const double RoundTripDeg = 1e-9;

    private static readonly CsvTable Coords = CsvTable.Read(Repo.Data("batteries", "coords.csv"));

    public static double PlaceLat(double x) => double.IsFinite(x) ? Math.IEEERemainder(x, 180) : 45;

    public static double PlaceLon(double x) => double.IsFinite(x) ? Math.IEEERemainder(x, 360) : 7;

    /// <summary>GeographicLib GeoConvert 2.1.2, coords.csv.</summary>
    [Fact]
    [Checks(typeof(UtmPosition), CheckKind.Outside)]
    public void UtmPosition_OfReferencePoints_AgreesToTheTenthOfAMillimetre()
    {
        foreach (CsvRow row in Coords.Rows)
        {
            UtmPosition p = UtmPosition.Of(new GeoPoint(row.Num("lat_deg"), row.Num("lon_deg")));
            Assert.Equal(row.Whole("utm_zone"), p.Zone);
            Assert.Equal(row["hemisphere"], p.Hemisphere == Hemisphere.North ? "n" : "s");
            Assert.InRange(Math.Abs(p.EastingM - row.Num("easting_m")), 0, UtmToleranceM);
            Assert.InRange(Math.Abs(p.NorthingM - row.Num("northing_m")), 0, UtmToleranceM);
            GeoPoint back = p.ToGeoPoint();
            Assert.InRange(Math.Abs(back.LatDeg - row.Num("lat_deg")), 0, RoundTripDeg);
            Assert.InRange(Math.Abs(UtmKernel.Wrap(back.LonDeg - row.Num("lon_deg"))) * Math.Cos(back.LatDeg * Math.PI / 180), 0, RoundTripDeg);
        }
    }

    /// <summary>GeographicLib GeoConvert 2.1.2, coords.csv: convergence and scale as printed.</summary>
    [Fact]
    public void Convergence_OfReferencePoints_AgreesToTheLastDigit()
    {
        foreach (CsvRow row in Coords.Rows)
        {
            double lat = row.Num("lat_deg"), lon = row.Num("lon_deg"), convergence, scale;
            if (row.Whole("utm_zone") == 0)
            {
                UtmKernel.UpsConvergence(lat, lon, lat >= 0, out convergence, out scale);
            }
            else
            {
                UtmKernel.UtmConvergence(lat, lon, row.Whole("utm_zone"), out convergence, out scale);
            }

            Assert.InRange(Math.Abs(UtmKernel.Wrap(convergence - row.Num("convergence_deg"))), 0, 1.1e-9);
            Assert.InRange(Math.Abs(scale - row.Num("scale")), 0, 1.1e-11);
        }
    }

    /// <summary>GeographicLib GeoConvert 2.1.2, coords.csv.</summary>
    [Fact]
    [Checks(typeof(GridReference), CheckKind.Outside)]
    public void GridReference_OfReferencePoints_IsTheSameTextAndPlace()
    {
        foreach (CsvRow row in Coords.Rows)
        {
            var place = new GeoPoint(row.Num("lat_deg"), row.Num("lon_deg"));
            Assert.Equal(row["mgrs_1m"], GridReference.Of(place, GridPrecision.OneMetre).ToString());
            Assert.Equal(row["mgrs_10m"], GridReference.Of(place).ToString());
            Assert.Equal(row["mgrs_100m"], GridReference.Of(place, GridPrecision.HundredMetres).ToString());
            Assert.Equal(row["mgrs_1km"], GridReference.Of(place, GridPrecision.OneKilometre).ToString());
            var read = GridReference.Parse(row["mgrs_1m"]);
            Assert.Equal(GridReference.Of(place, GridPrecision.OneMetre), read);
            Near(row, "mgrs1m_centre", read.Centre);
            Near(row, "mgrs1m_sw", read.SouthWestCorner);
        }

        static void Near(CsvRow row, string column, GeoPoint p)
        {
            Assert.InRange(Math.Abs(p.LatDeg - row.Num(column + "_lat")), 0, RoundTripDeg);
            Assert.InRange(Math.Abs(UtmKernel.Wrap(p.LonDeg - row.Num(column + "_lon"))) * Math.Cos(p.LatDeg * Math.PI / 180), 0, RoundTripDeg);
        }
    }

    [Fact]
    public void GridReference_Every_ZoneAndBand_ReadsBack()
    {
        for (double lat = -89.5; lat < 90; lat += 0.97)
        {
            for (double lon = -180; lon <= 180; lon += 1.9)
            {
                var place = new GeoPoint(lat, lon);
                foreach (GridPrecision precision in Enum.GetValues<GridPrecision>())
                {
                    var square = GridReference.Of(place, precision);
                    Assert.Equal(square, GridReference.Parse(square.ToString()));
                    Assert.Equal(square, GridReference.Parse(square.ToSpacedString().ToLowerInvariant()));
                }
            }
        }
    }

    [Property]
    [Checks(typeof(GridReference), CheckKind.Property)]
    public bool GridReference_Finer_LiesInsideCoarser(double x, double y)
    {
        var place = new GeoPoint(PlaceLat(x), PlaceLon(y));
        string fine = GridReference.Of(place, GridPrecision.OneMetre).ToString();
        string coarse = GridReference.Of(place, GridPrecision.OneKilometre).ToString();
        int head = fine.Length - 10;
        return coarse == $"{fine[..head]}{fine[head..(head + 2)]}{fine[(head + 5)..(head + 7)]}";
    }

    [Property]
    [Checks(typeof(UtmPosition), CheckKind.Property)]
    public bool UtmPosition_ThereAndBack_IsTheSamePlace(double x, double y)
    {
        var place = new GeoPoint(PlaceLat(x), PlaceLon(y));
        GeoPoint back = UtmPosition.Of(place).ToGeoPoint();
        return Math.Abs(back.LatDeg - place.LatDeg) <= RoundTripDeg
            && Math.Abs(UtmKernel.Wrap(back.LonDeg - place.LonDeg)) * Math.Cos(place.LatDeg * Math.PI / 180) <= RoundTripDeg;
    }

    [Fact]
    public void UtmPosition_InANeighboursZone_ReadsBack()
    {
        var place = new GeoPoint(46.5, 6.2);
        UtmPosition own = UtmPosition.Of(place), other = UtmPosition.InZone(place, 31);
        Assert.Equal(32, own.Zone);
        Assert.Equal(31, other.Zone);
        Assert.InRange(Math.Abs(other.ToGeoPoint().LonDeg - place.LonDeg), 0, RoundTripDeg);
    }

    [Theory]
    [InlineData(61, 500_000, 0, "0 to 60")]
    [InlineData(-1, 500_000, 0, "0 to 60")]
    [InlineData(31, -1, 0, "m")]
    [InlineData(31, 500_000, 1e8, "m")]
    [InlineData(31, double.NaN, 0, "m")]
    [Checks(typeof(UtmPosition), CheckKind.BadInput)]
    public void UtmPosition_OutsideRange_SaysRange(int zone, double e, double n, string says)
        => Assert.Contains(says, Assert.Throws<ArgumentOutOfRangeException>(() => new UtmPosition(zone, Hemisphere.North, e, n)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("", "zone")]
    [InlineData("00UCS1194", "zone 0")]
    [InlineData("61UCS1194", "zone 61")]
    [InlineData("37UCS119", "even number")]
    [InlineData("37UCS119455315", "even number", "37UCS11945531x")]
    [InlineData("37ICS1194", "does not exist")]
    [InlineData("37UIS1194", "does not exist")]
    [InlineData("37UCW1194", "does not exist")]
    [InlineData("37UJS1194", "does not exist")]
    [InlineData("37U", "three letters")]
    [InlineData("C5", "polar")]
    [InlineData("37UCS11945-531", "neither")]
    [InlineData("37UCS1194553111945531", "too long")]
    [Checks(typeof(GridReference), CheckKind.BadInput)]
    public void GridReference_OfBadText_SaysWhatIsWrong(string text, string says, string? instead = null)
    {
        string t = instead ?? text;
        InputFormatException e = Assert.Throws<InputFormatException>(() => GridReference.Parse(t));
        Assert.Contains(says, e.Message, StringComparison.Ordinal);
        Assert.False(GridReference.TryParse(t, out GridReference none));
        Assert.Equal("", none.ToString());
        Assert.Throws<InvalidOperationException>(() => none.Centre);
    }

    [Fact]
    public void GridReference_WithSpaces_IsTheUsNationalGridForm()
        => Assert.Equal("37U CS 1194 5531", GridReference.Parse("37ucs11945531").ToSpacedString());

    /// <summary>coords.csv: own formatting; the one exact half may fall either way.</summary>
    [Fact]
    public void DegreesMinutes_OfTable_AreTheSameText()
    {
        foreach (CsvRow row in Coords.Rows)
        {
            var place = new GeoPoint(row.Num("lat_deg"), row.Num("lon_deg"));
            Assert.True(row["ddm_0.0001min"] == DegreesMinutes.Padded(place, 4) || IsHalf(place.LatDeg) || IsHalf(place.LonDeg), row["ddm_0.0001min"] + " is not " + DegreesMinutes.Padded(place, 4));
            Assert.Equal(row["dms_0.01s"], DegreesMinutes.Seconds(place));
        }

        static bool IsHalf(double deg) => Math.Abs((Math.Abs(deg) * 600_000 % 1) - 0.5) < 1e-6;
    }

    /// <summary>US NSARC georeferencing matrix 2007: DD-MM.mmm without leading zeros, at most three decimals.</summary>
    [Fact]
    [Checks(typeof(DegreesMinutes), CheckKind.Outside)]
    public void DegreesMinutes_ShortForm_HasNoLeadingZerosAndThreeDecimals()
    {
        Assert.Equal("6 43.115 S, 106 59.065 W", DegreesMinutes.Format(new GeoPoint(-6.718582602, -106.984410225)));
        Assert.Equal("0 0.000 N, 0 3.000 E", DegreesMinutes.Format(new GeoPoint(0, 0.05)));
    }

    [Property]
    [Checks(typeof(DegreesMinutes), CheckKind.Property)]
    public bool DegreesMinutes_NeverShowsSixtyMinutes_AndReadsBack(double x, double y)
    {
        var place = new GeoPoint(PlaceLat(x), PlaceLon(y));
        string[] parts = DegreesMinutes.Format(place).Split(", ");
        return Near(parts[0], place.LatDeg) && Near(parts[1], place.LonDeg);

        static bool Near(string text, double deg)
        {
            string[] w = text.Split(' ');
            double d = double.Parse(w[0], System.Globalization.CultureInfo.InvariantCulture), m = double.Parse(w[1], System.Globalization.CultureInfo.InvariantCulture);
            double sign = w[2] is "S" or "W" ? -1 : 1;
            return m < 60 && Math.Abs((sign * (d + (m / 60))) - deg) <= 0.00051 / 60;
        }
    }

    [Fact]
    [Checks(typeof(DegreesMinutes), CheckKind.BadInput)]
    public void DegreesMinutes_TooManyDecimals_SaysRange()
        => Assert.Contains("0 to 6", Assert.Throws<ArgumentOutOfRangeException>(() => DegreesMinutes.Format(default, 9)).Message, StringComparison.Ordinal);
}
