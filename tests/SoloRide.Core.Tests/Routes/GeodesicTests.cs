using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class GeodesicTests
{
    // Source: GeodSolve 2.1.2 (GeographicLib); see Data/routes/README.md.
    [Theory]
    [InlineData("geodesic_short.csv", 1e-8)]
    [InlineData("geodesic_long.csv", 1e-7)]
    [Checks(typeof(Geodesic), CheckKind.Outside)]
    public void Length_ReferenceTable_AgreesWithinNanometres(string table, double toleranceM)
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("routes", table)).Rows)
        {
            Geodesic g = Between(row);
            Assert.True(Math.Abs(g.Length.Meters - row.Num("s12_m")) <= toleranceM, $"{table} row {row.Number}: {g.Length.Meters:R} instead of {row["s12_m"]}");
            Assert.True(double.IsFinite(g.InitialBearing.Degrees) && double.IsFinite(g.FinalBearing.Degrees));
        }
    }

    // Source: as above.
    [Fact]
    [Checks(typeof(Geodesic), CheckKind.Outside)]
    public void Bearings_ReferenceTable_AgreeToTheDigitsOfTheCoordinates()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("routes", "geodesic_short.csv")).Rows)
        {
            double s = row.Num("s12_m");
            if (s > 1)
            {
                Geodesic g = Between(row);

                // 40-digit arithmetic on the same doubles misses one printed direction by 1.06e-8 deg at 10.8 m (1.03 of the first bound):
                // that much is the reference's own rounding on short lines.
                double allowed = 1.1 * (1e-9 + (1e-7 / s));
                Assert.InRange(Math.Abs(Math.IEEERemainder(g.InitialBearing.Degrees - row.Num("azi1_deg"), 360)), 0, allowed);
                Assert.InRange(Math.Abs(Math.IEEERemainder(g.FinalBearing.Degrees - row.Num("azi2_deg"), 360)), 0, allowed);
            }
        }
    }

    // Source: as above; directions have a meaning away from poles, coincident and antipodal places.
    [Fact]
    [Checks(typeof(Geodesic), CheckKind.Outside)]
    public void Bearings_LongLines_AgreeWithTheReference()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("routes", "geodesic_long.csv")).Rows.Where(r => r["class"].StartsWith("random", StringComparison.Ordinal)))
        {
            Geodesic g = Between(row);
            Assert.InRange(Math.Abs(Math.IEEERemainder(g.InitialBearing.Degrees - row.Num("azi1_deg"), 360)), 0, 2e-9);
            Assert.InRange(Math.Abs(Math.IEEERemainder(g.FinalBearing.Degrees - row.Num("azi2_deg"), 360)), 0, 2e-9);
        }
    }

    // Source: the reference table read the other way round: start, direction and length give the second place.
    [Theory]
    [InlineData("geodesic_short.csv")]
    [InlineData("geodesic_long.csv")]
    [Checks(typeof(Geodesic), CheckKind.Outside)]
    public void PointAt_ReferenceTable_ReachesTheSecondPlace(string table)
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("routes", table)).Rows.Where(r => r["class"] is not ("antipodal" or "pole") && Math.Abs(r.Num("lat1_deg")) < 89.9))
        {
            Geodesic g = Between(row);
            GeoPoint end = Geodesic.PointAt(g.From, g.InitialBearing, g.Length);
            double miss = Geodesic.Between(end, g.To).Length.Meters;

            // A direction printed to 1e-9 deg turns the far end by up to 0.2 mm in 10 000 km; ours is finer.
            Assert.True(miss <= 1e-6 + (1e-10 * g.Length.Meters), $"{table} row {row.Number} ({row["class"]}): {miss} m off");
        }
    }

    [Property]
    [Checks(typeof(Geodesic), CheckKind.Property)]
    public bool Length_Swapped_IsTheSame(int a, int b, int c, int d)
    {
        GeoPoint p = Any(a, b), q = Any(c, d);
        return Math.Abs(Geodesic.Between(p, q).Length.Meters - Geodesic.Between(q, p).Length.Meters) < 1e-7;
    }

    [Property]
    [Checks(typeof(Geodesic), CheckKind.Property)]
    public bool Triangle_IsNeverShorterThanItsSide(int a, int b, int c, int d, int e, int f)
    {
        GeoPoint p = Any(a, b), q = Any(c, d), r = Any(e, f);
        return Geodesic.Between(p, r).Length.Meters <= Geodesic.Between(p, q).Length.Meters + Geodesic.Between(q, r).Length.Meters + 1e-6;
    }

    [Property]
    [Checks(typeof(Geodesic), CheckKind.Property)]
    public bool PointAt_ThenBetween_GivesDistanceBack(int a, int b, int bearing, PositiveInt distance)
    {
        GeoPoint p = Any(a, b);
        double m = distance.Get % 5_000_000 / 7.0;
        GeoPoint q = Geodesic.PointAt(p, Angle.FromDegrees(bearing % 360), Length.FromMeters(m));
        return Math.Abs(Geodesic.Between(p, q).Length.Meters - m) < 1e-6;
    }

    [Fact]
    [Checks(typeof(Geodesic), CheckKind.BadInput)]
    public void PointAt_NegativeDistance_SaysRangeAndUnit()
    {
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => Geodesic.PointAt(default, Angle.Zero, Length.FromMeters(-1)));
        Assert.Contains("40000000 m", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 0, 0, 180)]
    [InlineData(90, 0, -90, 0)]
    [InlineData(30, 10, -30, -170)]
    [InlineData(0, 0, 0, 0)]
    [InlineData(-90, 77, -90, 12)]
    [InlineData(0.0001, 0, -0.0001, 179.9999)]
    public void Length_DegeneratePairs_AreFinite(double lat1, double lon1, double lat2, double lon2)
    {
        double s = Geodesic.Between(new GeoPoint(lat1, lon1), new GeoPoint(lat2, lon2)).Length.Meters;
        Assert.InRange(s, 0, 20_003_931.5);
    }

    [Fact]
    public void ChordArc_CoincidentPlaces_IsZero() => Assert.Equal(0, GeodesyKernel.DistanceM(12, 34, 12, 34));

    private static Geodesic Between(CsvRow row)
        => Geodesic.Between(new GeoPoint(row.Num("lat1_deg"), row.Num("lon1_deg")), new GeoPoint(row.Num("lat2_deg"), row.Num("lon2_deg")));

    private static GeoPoint Any(int a, int b) => new(((a * 7919L) % 90_000) / 1000.0, ((b * 104_729L) % 180_000) / 1000.0);
}
