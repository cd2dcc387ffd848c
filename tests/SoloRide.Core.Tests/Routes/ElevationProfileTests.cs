using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class ElevationProfileTests
{
    [Fact]
    [Checks(typeof(ElevationProfile), CheckKind.BadInput)]
    public void Steps_SpacingOutOfRange_SaysRangeAndUnit()
    {
        ElevationProfile profile = ElevationProfile.Of(RideRouteTests.Walk(1, 20));
        Assert.Contains("1 to 10000 m", Assert.Throws<ArgumentOutOfRangeException>(() => profile.Steps(Length.Zero)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentNullException>(() => ElevationProfile.Of(null!));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationOptions { Smoothing = Length.FromMeters(0) });
    }

    [Property]
    [Checks(typeof(ElevationProfile), CheckKind.Property)]
    public bool Of_Reversed_ExchangesAscentAndDescentDigitForDigit(int seed)
    {
        RideRoute route = RideRouteTests.Walk(seed, 150);
        ElevationProfile there = ElevationProfile.Of(route), back = ElevationProfile.Of(route.Reversed());
        ElevationProfile rebuilt = ElevationProfile.Of(RideRoute.FromPoints(route.Points.Reverse().Select(p => p.Place)));
        return there.Ascent == back.Descent && there.Descent == back.Ascent && there.Ascent == rebuilt.Descent && there.ElevationsM.SequenceEqual(back.ElevationsM.Reverse());
    }

    [Property]
    [Checks(typeof(ElevationProfile), CheckKind.Property)]
    public bool Of_AscentLessDescent_IsTheNetHeight(int seed)
    {
        ElevationProfile p = ElevationProfile.Of(RideRouteTests.Walk(seed, 150));
        return Math.Abs((p.Ascent.Typical - p.Descent.Typical).Meters - (p.ElevationsM[^1] - p.ElevationsM[0])) < 1e-6;
    }

    [Property]
    [Checks(typeof(ElevationProfile), CheckKind.Property)]
    public bool Of_ConstantOffsetOfHeights_ChangesNothing(int seed, int offset)
    {
        RideRoute route = RideRouteTests.Walk(seed, 100);
        RideRoute lifted = RideRoute.FromPoints(route.Points.Select(p => new GeoPoint(p.Place.LatDeg, p.Place.LonDeg, p.Place.ElevationM + (offset % 5000))));
        return Math.Abs((ElevationProfile.Of(route).Ascent.Typical - ElevationProfile.Of(lifted).Ascent.Typical).Meters) < 1e-6;
    }

    [Property]
    [Checks(typeof(ElevationProfile), CheckKind.Property)]
    public bool Between_TwoStretches_AddUp(int seed, NonNegativeInt at)
    {
        ElevationProfile p = ElevationProfile.Of(RideRouteTests.Walk(seed, 150));
        Length cut = p.Route.Length * (at.Get % 1000 / 1000.0);
        StretchStatistics a = p.Between(Length.Zero, cut), b = p.Between(cut, p.Route.Length), whole = p.Between(Length.Zero, p.Route.Length);

        // A cut inside a cell can only fall on a straight piece of the profile.
        return Math.Abs((a.Ascent + b.Ascent - whole.Ascent).Meters) < 1e-6 && Math.Abs((a.Descent + b.Descent - whole.Descent).Meters) < 1e-6;
    }

    [Property]
    [Checks(typeof(ElevationProfile), CheckKind.Property)]
    public bool Steps_AnySpacing_SumUpToTheRoute(int seed, PositiveInt spacing)
    {
        ElevationProfile p = ElevationProfile.Of(RideRouteTests.Walk(seed, 150));
        var steps = p.Steps(Length.FromMeters(1 + (spacing.Get % 500)));
        return Math.Abs(steps.Sum(s => s.LengthM) - p.Route.Length.Meters) < 1e-6
            && Math.Abs(steps.Sum(s => s.RiseM) - (p.ElevationsM[^1] - p.ElevationsM[0])) < 1e-6
            && steps.All(s => s.BearingDeg is >= 0 and < 360);
    }

    [Property]
    public bool GradeHistogram_AnyRoute_SumsUpToTheRoute(int seed)
    {
        ElevationProfile p = ElevationProfile.Of(RideRouteTests.Walk(seed, 60));
        return Math.Abs(p.GradeHistogram().Sum(g => g.Distance.Meters) - p.Route.Length.Meters) < 1e-6;
    }

    [Fact]
    public void Of_NoHeights_IsLevelAndSaysSo()
    {
        ElevationProfile p = ElevationProfile.Of(RideRouteTests.Walk(5, 50, heights: false));
        Assert.False(p.HasHeights);
        Assert.Equal(0, p.Ascent.Typical.Meters);
        Assert.Contains(p.Findings, f => f.Code == "routes.no-heights");
        Assert.All(p.Steps(Length.FromMeters(25)), s => Assert.True(s.RiseM == 0 && double.IsNaN(s.ElevationM)));
        Assert.Empty(p.Climbs());
        Assert.Null(p.ElevationAt(Length.Zero));
    }

    // The mean of a straight line over a cell is its middle; a Gaussian leaves the inside of a straight line alone.
    [Fact]
    public void Of_StraightRamp_KeepsItsGrade()
    {
        RideRoute route = RideRoute.FromPoints(Enumerable.Range(0, 201).Select(i => new GeoPoint(45 + (i * 0.0001), 7, 100 + (i * 1.1113))));
        var options = new ElevationOptions { Source = HeightSource.Barometric };
        ElevationProfile p = ElevationProfile.Of(route, options);
        Assert.Equal(10.0, p.GradeAt(route.Length / 2).RiseFraction * 100, 0.01);
        Climb climb = Assert.Single(p.Climbs());
        Assert.Equal(10, climb.MeanGrade.RiseFraction * 100, 0.5);
        Assert.Equal(10, climb.SteepestGrade.RiseFraction * 100, 0.05);
        Assert.Empty(p.Descents());
        Assert.Equal(-10, Assert.Single(ElevationProfile.Of(route.Reversed(), options).Descents()).MeanGrade.RiseFraction * 100, 0.5);
    }

    // Source: profiles over public-domain terrain with stated noise; truth by its definition, 25 m Gaussian. Not shipped.
    [SkippableFact]
    [Checks(typeof(ElevationProfile), CheckKind.Outside)]
    public void Gaussian_TrueProfiles_GiveTheTabledAscent()
    {
        string folder = Repo.ReferenceFile("routes", "ascent");
        foreach (CsvRow row in CsvTable.Read(Path.Combine(folder, "truth.csv")).Rows.Where(r => r.Num("ascent_g25") >= 20))
        {
            var truth = CsvTable.Read(Path.Combine(folder, row["id"] + "_truth.csv")).Rows;
            double[] x = [.. truth.Select(r => r.Num("dist_m"))], h = [.. truth.Select(r => r.Num("elev_m"))], cells = new double[ProfileKernel.CellCount(x[^1])], smooth = new double[cells.Length];
            ProfileKernel.CellMeans(x, h, x[^1], cells);
            ProfileKernel.Gaussian(cells, 25 / (x[^1] / cells.Length), smooth);
            Assert.InRange(ProfileKernel.Sums(smooth).RiseM / row.Num("ascent_g25"), 0.99, 1.005);
        }
    }

    // Source: profiles over public-domain terrain with stated noise; not shipped. The bars hold for pooled draws; here each given series must stay near.
    [SkippableFact]
    [Checks(typeof(ElevationProfile), CheckKind.Outside)]
    public void Of_GivenSeries_AreRecognisedAndNearTheTruth()
    {
        string folder = Repo.ReferenceFile("routes", "ascent");
        var errors = new Dictionary<HeightSource, List<double>> { [HeightSource.Barometric] = [], [HeightSource.Satellite] = [], [HeightSource.TerrainModel] = [] };
        int wrong = 0;
        foreach (CsvRow row in CsvTable.Read(Path.Combine(folder, "truth.csv")).Rows.Where(r => r.Num("ascent_g25") >= Math.Max(50, r.Num("length_m") / 100)))
        {
            var sensor = CsvTable.Read(Path.Combine(folder, row["id"] + "_sensor.csv")).Rows;
            var model = CsvTable.Read(Path.Combine(folder, row["id"] + "_dem.csv")).Rows;
            Take(HeightSource.Barometric, sensor, "elev_baro_m");
            Take(HeightSource.Satellite, sensor, "elev_gnss_m");
            Take(HeightSource.TerrainModel, model, "elev_dem_m");

            void Take(HeightSource source, IReadOnlyList<CsvRow> rows, string column)
            {
                ElevationProfile p = ElevationProfile.Of(RideRoute.FromPoints(rows.Select(r => new RoutePoint(
                    new GeoPoint(45 + (r.Num("dist_m") / 111_131.75), 7, r.Num(column)),
                    source == HeightSource.TerrainModel ? null : new DateTimeOffset(2027, 6, 14, 8, 0, 0, TimeSpan.Zero).AddSeconds(r.Num("time_s"))))));
                wrong += p.Source == source ? 0 : 1;
                errors[source].Add((p.Ascent.Typical.Meters / row.Num("ascent_g25")) - 1);
                ElevationProfile back = ElevationProfile.Of(p.Route.Reversed());
                Assert.Equal(p.Ascent, back.Descent);
                Assert.Equal(p.Source, back.Source);
            }
        }

        Assert.InRange(wrong, 0, 2);
        Assert.InRange(Rms(HeightSource.Barometric), 0, 0.015);
        Assert.InRange(Rms(HeightSource.Satellite), 0, 0.10);
        Assert.InRange(Rms(HeightSource.TerrainModel), 0, 0.08);

        double Rms(HeightSource source) => Math.Sqrt(errors[source].Average(e => e * e));
    }

    [Fact]
    [Checks(typeof(ElevationProfile), CheckKind.Regression)]
    public void Of_StatedSource_IsTaken()
    {
        RideRoute route = RideRouteTests.Walk(4, 400);
        Assert.Equal(HeightSource.TerrainModel, ElevationProfile.Of(route).Source);
        ElevationProfile baro = ElevationProfile.Of(route, new ElevationOptions { Source = HeightSource.Barometric });
        Assert.Equal((HeightSource.Barometric, 25), (baro.Source, baro.Smoothing.Meters));
        Assert.True(baro.Ascent.High.Meters - baro.Ascent.Low.Meters < ElevationProfile.Of(route, new ElevationOptions { Source = HeightSource.Satellite }).Ascent.High.Meters);
        ElevationProfile stated = ElevationProfile.Of(route, new ElevationOptions { Smoothing = Length.FromMeters(100) });
        Assert.Equal(100, stated.Scale.Meters);
        Assert.True(stated.Ascent.Typical < baro.Ascent.Typical);
    }

    [Property]
    public bool Cells_OfAnyBrokenLine_KeepItsMean(int seed)
    {
        var random = new Random(seed);
        double[] x = new double[40], h = new double[40];
        for (int i = 1; i < 40; i++)
        {
            x[i] = x[i - 1] + (random.Next(4) == 0 ? 0 : random.NextDouble() * 30);
            h[i] = random.NextDouble() * 100;
        }

        double[] cells = new double[ProfileKernel.CellCount(x[^1])];
        ProfileKernel.CellMeans(x, h, x[^1], cells);
        double area = 0;
        for (int i = 0; i < 40;)
        {
            int j = i;
            while (j + 1 < 40 && x[j + 1] == x[i])
            {
                j++;
            }

            int k = j + 1;
            if (k < 40)
            {
                int m = k;
                while (m + 1 < 40 && x[m + 1] == x[k])
                {
                    m++;
                }

                area += (h[i..(j + 1)].Average() + h[k..(m + 1)].Average()) / 2 * (x[k] - x[i]);
            }

            i = k;
        }

        return Math.Abs((cells.Average() * x[^1]) - area) < 1e-6;
    }
}
