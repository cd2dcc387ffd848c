using System.Globalization;
using SoloRide.Accuracy;
using SoloRide.Daylight;

namespace SoloRide.Tests.Daylight;

/// <summary>Reads the tables of this module.</summary>
internal static class Almanac
{
    public const double Arcsec = 180 / Math.PI * 3600;

    public static CsvTable Table(string name) => CsvTable.Read(Repo.Data("daylight", name));

    public static DateTimeOffset Utc(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);

    public static DaylightOptions Options(CsvRow r) => new()
    {
        Ut1MinusUtc = TimeSpan.FromTicks((long)Math.Round(r.Num("dut1_s") * TimeSpan.TicksPerSecond)),
        DeltaT = TimeSpan.FromTicks((long)Math.Round(r.Num("delta_t_s") * TimeSpan.TicksPerSecond)),
    };

    public static GeoPoint Place(CsvRow r, double elevationM = double.NaN)
        => new(r.Num("lat_deg"), r.Num("lon_deg"), double.IsNaN(elevationM) ? r.Num("elevation_m") : elevationM);

    /// <summary>Angle between two directions [arcsec].</summary>
    public static double Between(double az1, double alt1, double az2, double alt2)
    {
        const double rad = Math.PI / 180;
        double a = alt1 * rad, b = alt2 * rad, sinAlt = Math.Sin((a - b) / 2), sinAz = Math.Sin((az1 - az2) * rad / 2);
        return 2 * Math.Asin(Math.Min(1, Math.Sqrt((sinAlt * sinAlt) + (Math.Cos(a) * Math.Cos(b) * sinAz * sinAz)))) * Arcsec;
    }

    /// <summary>Terrain of one height everywhere.</summary>
    public sealed class Plain(double heightM) : ITerrainHeights
    {
        public double HeightM(double latDeg, double lonDeg) => heightM;

        public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM) => heightsM.Fill(heightM);
    }

    /// <summary>Terrain from a function.</summary>
    public sealed class Relief(Func<double, double, double> heightM) : ITerrainHeights
    {
        public double HeightM(double latDeg, double lonDeg) => heightM(latDeg, lonDeg);

        public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM)
        {
            for (int i = 0; i < heightsM.Length; i++)
            {
                heightsM[i] = heightM(latDeg[i], lonDeg[i]);
            }
        }
    }
}
