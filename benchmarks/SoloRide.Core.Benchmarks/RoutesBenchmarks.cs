using System.Globalization;
using System.Text;
using System.Xml;
using BenchmarkDotNet.Attributes;
using NetTopologySuite.IO;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>A 50 MB GPX file of 431 035 invented points: our reader, a bare XmlReader loop over the same numbers, and a general-purpose GPX library, side by side.</summary>
[MemoryDiagnoser]
public class RoutesReadingBenchmarks
{
    private const int Points = 431_035;
    private byte[] _gpx = [];

    [GlobalSetup]
    public void Setup()
    {
        var text = new StringBuilder("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"1.1\" creator=\"sample\" xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n");
        var random = new Random(1);
        double lat = 44, lon = -110, ele = 1800, heading = 0;
        var time = new DateTime(2027, 6, 14, 5, 0, 0, DateTimeKind.Utc);
        for (int i = 0; i < Points; i++)
        {
            heading += random.NextDouble() - 0.5;
            lat += 2e-5 * Math.Cos(heading);
            lon += 2e-5 * Math.Sin(heading);
            ele += random.NextDouble() - 0.5;
            text.Append(CultureInfo.InvariantCulture, $" <trkpt lat=\"{lat:F7}\" lon=\"{lon:F7}\">\n  <ele>{ele:F2}</ele>\n  <time>{time.AddSeconds(i):yyyy-MM-ddTHH:mm:ssZ}</time>\n </trkpt>\n");
        }

        text.Append("</trkseg></trk></gpx>");
        _gpx = Encoding.UTF8.GetBytes(text.ToString());
    }

    [Benchmark(Baseline = true, Description = "bare XmlReader loop, same numbers")]
    public double XmlReaderLoop()
    {
        double sum = 0;
        using var xml = XmlReader.Create(new MemoryStream(_gpx), new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, IgnoreWhitespace = true });
        while (xml.Read())
        {
            if (xml.NodeType != XmlNodeType.Element)
            {
                continue;
            }

            switch (xml.LocalName)
            {
                case "trkpt":
                    sum += double.Parse(xml.GetAttribute("lat")!, NumberStyles.Float, CultureInfo.InvariantCulture);
                    sum += double.Parse(xml.GetAttribute("lon")!, NumberStyles.Float, CultureInfo.InvariantCulture);
                    break;
                case "ele":
                    xml.Read();
                    sum += double.Parse(xml.Value, NumberStyles.Float, CultureInfo.InvariantCulture);
                    break;
                case "time":
                    xml.Read();
                    sum += DateTimeOffset.Parse(xml.Value, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal).Ticks;
                    break;
            }
        }

        return sum;
    }

    [Benchmark(Description = "RideRoute.Read")]
    public int Ours() => RideRoute.Read(new MemoryStream(_gpx)).Points.Count;

    [Benchmark(Description = "general-purpose GPX library")]
    public int Library()
    {
        using var xml = XmlReader.Create(new MemoryStream(_gpx));
        return GpxFile.ReadFrom(xml, new GpxReaderSettings()).Tracks.Count;
    }
}

/// <summary>Length, profile and climbs per point, at several sizes.</summary>
[MemoryDiagnoser]
public class RoutesProfileBenchmarks
{
    private GeoPoint[] _points = [];
    private RideRoute _barometric = null!;
    private RideRoute _satellite = null!;

    [Params(10_000, 100_000, 1_000_000, 10_000_000)]
    public int Points { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(2);
        double lat = 44, lon = -110, ele = 1800, heading = 0, wander = 0;
        var baro = new RoutePoint[Points];
        var satellite = new RoutePoint[Points];
        var start = new DateTimeOffset(2027, 6, 14, 5, 0, 0, TimeSpan.Zero);
        for (int i = 0; i < Points; i++)
        {
            heading += (random.NextDouble() - 0.5) * 0.2;
            lat += 2.5e-5 * Math.Cos(heading * 0.01);
            lon += 2.5e-5 * Math.Sin(heading * 0.01);
            lat = lat > 80 ? 44 : lat;
            ele += 0.3 * Math.Sin(i / 400.0);
            wander = (0.98 * wander) + (random.NextDouble() - 0.5) * 3;
            baro[i] = new RoutePoint(new GeoPoint(lat, lon, ele + (random.NextDouble() * 0.5)), start.AddSeconds(i));
            satellite[i] = new RoutePoint(new GeoPoint(lat, lon, ele + wander), start.AddSeconds(i));
        }

        _points = [.. baro.Select(p => p.Place)];
        _barometric = RideRoute.FromPoints(baro);
        _satellite = RideRoute.FromPoints(satellite);
        _ = _barometric.Length + _satellite.Length;
    }

    [Benchmark(Description = "length of a polyline")]
    public double LengthOfPolyline()
    {
        double[] lat = new double[_points.Length], lon = new double[_points.Length];
        for (int i = 0; i < lat.Length; i++)
        {
            (lat[i], lon[i]) = (_points[i].LatDeg, _points[i].LonDeg);
        }

        return RouteKernel.Cumulative(lat, lon)[^1];
    }

    [Benchmark(Description = "profile, ascent, grade, climbs (barometric)")]
    public double ProfileBarometric() => Whole(_barometric);

    [Benchmark(Description = "profile, ascent, grade, climbs (satellite)")]
    public double ProfileSatellite() => Whole(_satellite);

    [Benchmark(Description = "one million sines")]
    public double Sines()
    {
        double sum = 0;
        for (int i = 0; i < 1_000_000; i++)
        {
            sum += Math.Sin(i);
        }

        return sum;
    }

    private static double Whole(RideRoute route)
    {
        ElevationProfile profile = ElevationProfile.Of(route);
        return profile.Ascent.Typical.Meters + profile.Climbs().Length + profile.GradeHistogram()[0].Distance.Meters;
    }
}
