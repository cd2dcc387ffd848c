using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Daylight;
using UnitsNet;

namespace SoloRide.Tests.Daylight;

public sealed class SolarPositionTests
{
    /// <summary>Source: solar_positions.csv, an IAU 2006/2000A pipeline; 0.6 arcsec and 0.2 arcsec rms.</summary>
    [Fact]
    [Checks(typeof(SolarPosition), CheckKind.Outside)]
    public void At_EveryRowOfTheTable_IsWithin06Arcsec()
    {
        double sum = 0;
        int n = 0;
        foreach (CsvRow r in Almanac.Table("solar_positions.csv").Rows)
        {
            SolarPosition p = SolarPosition.At(Almanac.Utc(r["utc"]), Almanac.Place(r), Almanac.Options(r));
            double e = Almanac.Between(p.AzimuthDeg, p.AltitudeDeg, r.Num("azimuth_deg"), r.Num("elevation_deg"));
            Assert.True(e <= 0.6, $"row {r.Number}: {e} arcsec");
            Assert.InRange(p.Distance.Meters / 149597870700 - r.Num("distance_au"), -3e-6, 3e-6);
            sum += e * e;
            n++;
        }

        Assert.True(Math.Sqrt(sum / n) <= 0.2);
    }

    [Fact]
    [Checks(typeof(SolarPosition), CheckKind.BadInput)]
    public void ApparentAltitude_OutsideRanges_Throws()
    {
        SolarPosition p = SolarPosition.At(new DateTimeOffset(2027, 6, 14, 12, 0, 0, TimeSpan.Zero), new GeoPoint(40, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => p.ApparentAltitude(Pressure.FromHectopascals(1300)));
        Assert.Throws<ArgumentOutOfRangeException>(() => p.ApparentAltitude(null, Temperature.FromDegreesCelsius(90)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DaylightOptions { Ut1MinusUtc = TimeSpan.FromSeconds(2) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new DaylightOptions { DeltaT = TimeSpan.FromSeconds(500) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new DaylightOptions { RiseSetAltitudeDeg = double.NaN });
        Assert.Throws<ArgumentOutOfRangeException>(() => new DaylightOptions { HeightAboveHorizon = Length.FromMeters(-1) });
        Assert.Throws<ArgumentException>(() => SolarPosition.At([DateTimeOffset.UnixEpoch], new GeoPoint(0, 0), []));
    }

    /// <summary>The batch shares polynomials: within 0.001 arcsec of single calls, at every place and time from 1950 to 2100.</summary>
    [Property(MaxTest = 60)]
    [Checks(typeof(SolarPosition), CheckKind.Property)]
    public bool At_Batch_EqualsScalar(int seed)
    {
        var random = new Random(seed);
        GeoPoint place = RandomPlace(random);
        var instants = new DateTimeOffset[37];
        DateTimeOffset t = RandomInstant(random);
        for (int i = 0; i < instants.Length; i++)
        {
            instants[i] = t;
            t = t.AddSeconds(random.NextDouble() * random.Next(1, 40000));
        }

        var batch = new SolarPosition[instants.Length];
        SolarPosition.At(instants, place, batch);
        for (int i = 0; i < batch.Length; i++)
        {
            SolarPosition one = SolarPosition.At(instants[i], place);
            if (!(Almanac.Between(batch[i].AzimuthDeg, batch[i].AltitudeDeg, one.AzimuthDeg, one.AltitudeDeg) < 0.001)
                || Math.Abs(batch[i].Distance.Meters - one.Distance.Meters) > 3000e3)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The order and company of the instants do not matter.</summary>
    [Property(MaxTest = 20)]
    public bool At_Batch_DoesNotDependOnOrder(int seed)
    {
        var random = new Random(seed);
        GeoPoint place = RandomPlace(random);
        DateTimeOffset[] instants = [.. Enumerable.Range(0, 11).Select(_ => RandomInstant(random))];
        var all = new SolarPosition[11];
        SolarPosition.At(instants, place, all);
        var one = new SolarPosition[1];
        return Enumerable.Range(0, 11).All(i =>
        {
            SolarPosition.At(instants.AsSpan(i, 1), place, one);
            return one[0] == all[i];
        });
    }

    [Property(MaxTest = 300)]
    public bool At_PoleToPole1950To2100_IsNeverNaN(int seed)
    {
        var random = new Random(seed);
        GeoPoint place = RandomPlace(random);
        SolarPosition p = SolarPosition.At(RandomInstant(random), place);
        return p.AzimuthDeg is >= 0 and <= 360 && p.AltitudeDeg is >= -90 and <= 90 && p.Distance.Meters is > 1.46e11 and < 1.53e11;
    }

    /// <summary>Moving east by x degrees and back in time by the Earth's turn leaves the altitude alone, but for the Sun's own motion.</summary>
    [Property(MaxTest = 100)]
    public bool At_EastShift_IsTimeShift(int seed)
    {
        var random = new Random(seed);
        DateTimeOffset t = RandomInstant(random);
        double lat = (random.NextDouble() * 120) - 60, lon = (random.NextDouble() * 300) - 150, shift = (random.NextDouble() * 20) - 10;
        SolarPosition a = SolarPosition.At(t, new GeoPoint(lat, lon));
        SolarPosition b = SolarPosition.At(t.AddSeconds(-shift * 240), new GeoPoint(lat, lon + shift));

        // In 40 minutes the Sun drifts by less than 0.03 deg in declination and equation of time.
        return Math.Abs(a.AltitudeDeg - b.AltitudeDeg) < 0.03;
    }

    internal static GeoPoint RandomPlace(Random random) => random.Next(12) switch
    {
        0 => new GeoPoint(90, (random.NextDouble() * 360) - 180, 0),
        1 => new GeoPoint(-90, (random.NextDouble() * 360) - 180, 0),
        2 => new GeoPoint(89.95 + (random.NextDouble() * 0.05), (random.NextDouble() * 360) - 180, 0),
        _ => new GeoPoint((random.NextDouble() * 180) - 90, (random.NextDouble() * 360) - 180, random.NextDouble() * 5000),
    };

    internal static DateTimeOffset RandomInstant(Random random)
        => new DateTimeOffset(1950, 1, 1, 0, 0, 0, TimeSpan.Zero).AddSeconds(random.NextDouble() * 151 * 365.25 * 86400);
}
