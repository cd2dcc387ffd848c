using System.Globalization;
using System.Text;
using SoloRide.Routes;

namespace SoloRide.Accuracy;

/// <summary>Invented GPX text of plain and odd points, long enough that plain points are read past the XML reader; and the comparison of both ways of reading.</summary>
internal static class MixedGpx
{
    // Below this bound on attributes every point goes through the XML reader.
    private static readonly RouteReadOptions ByXmlReader = new() { MaxAttributeLength = 127 };

    public static string Make(int seed, int points = 400)
    {
        var random = new Random(seed);
        int style = random.Next(5);
        string line = random.Next(3) switch { 0 => "\r\n", 1 => "", _ => "\n" };
        double odd = random.Next(3) switch { 0 => 0, 1 => 0.05, _ => 0.6 };
        var text = new StringBuilder("<?xml version=\"1.0\"?>" + line + "<gpx version=\"1.1\" creator=\"sample\" xmlns=\"http://www.topografix.com/GPX/1/1\" xmlns:o=\"urn:other\"><trk><name>one</name><trkseg>" + line);
        for (int i = 0; i < points; i++)
        {
            string lat = (45 + (i * 1e-4)).ToString("F6", CultureInfo.InvariantCulture), lon = (7 + (i * 1.3e-4)).ToString("F6", CultureInfo.InvariantCulture);
            string time = $"2027-06-14T{5 + (i / 3600):00}:{i / 60 % 60:00}:{i % 60:00}Z", ele = (1000 + (i % 50)).ToString(CultureInfo.InvariantCulture);
            text.Append(random.NextDouble() < odd ? Odd(random.Next(26), lat, lon, ele, time, line) : style switch
            {
                0 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"/>{line}",
                1 => $"<trkpt lon='{lon}'  lat='{lat}' ><ele>{ele}</ele></trkpt>{line}",
                2 => $" <trkpt lat=\"{lat}\" lon=\"{lon}\">{line}  <ele>{ele}</ele>{line}  <time>{time}</time>{line} </trkpt>{line}",
                3 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><time>{time}</time><ele> {ele} </ele></trkpt>{line}",
                _ => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"></trkpt>{line}",
            });
        }

        return text.Append("</trkseg></trk></gpx>").ToString();
    }

    private static string Odd(int kind, string lat, string lon, string ele, string time, string line) => kind switch
    {
        0 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele>{ele}</ele><extensions><hr>120</hr></extensions></trkpt>",
        1 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele>high</ele><time>{time}</time></trkpt>{line}",
        2 => $"<!-- <trkpt lat=\"1\" lon=\"2\"/></trkpt> -->{line}",
        3 => $"<trkpt lat=\"91\" lon=\"{lon}\"/>{line}",
        4 => $"<trkpt lat=\"{lat}\"><ele>{ele}</ele></trkpt>",
        5 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\" x=\"</trkpt>/>\"/>".Replace("</trkpt>", "&lt;/trkpt>", StringComparison.Ordinal),
        6 => $"</trkseg>{line}<trkseg>{line}",
        7 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele><![CDATA[{ele}</trkpt>]]></ele></trkpt>{line}",
        8 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><time>{time[..^1]}</time></trkpt>{line}",
        9 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><time>{time}</time ></trkpt >{line}",
        10 => $"<o:trkpt lat=\"{lat}\" lon=\"{lon}\"/>\r{line}",
        11 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele>{ele}</ele><ele>7</ele></trkpt>",
        12 => $"<?note </trkpt> ?>{line}",
        13 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele>1&#48;0</ele>text</trkpt>\n\n",
        14 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><o:extra><trkpt lat=\"5\" lon=\"6\"></trkpt></o:extra></trkpt>{line}",
        15 => $"<trkpt\n lat=\"{lat}\"\n lon=\"{lon}\"\n/>{line}",
        16 => $"<wrong><trkpt lat=\"3\" lon=\"4\"></trkpt></wrong>{line}",
        17 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><time>2027-06-14T05:00:60Z</time></trkpt>{line}",
        18 => $"<trkpt lat=\"{lat}e0\" lon=\"+{lon}\"><ele>-.5</ele></trkpt>{line}",
        19 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele></ele><time/></trkpt>{line}",
        20 => $"<trkpt lat=\"NaN\" lon=\"{lon}\"></trkpt>{line}",
        21 => $"</trkseg></trk><wpt lat=\"1\" lon=\"2\"><name>place</name></wpt><trk><trkseg>{line}",
        22 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><name>{new string('x', 5000)}</name></trkpt>{line}",
        23 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele>{new string(' ', 70_000)}{ele}</ele></trkpt>{line}",
        24 => $"<trkpt lat=\"{lat}\" lon=\"{lon}\"><ele>{ele}\u00e9</ele></trkpt>{line}",
        _ => $"<trkpt  lat = \"{lat}\" lon = \"{lon}\"></trkpt>{line}",
    };

    /// <summary>What differs between reading with and without the short way; null when nothing does.</summary>
    public static string? Difference(byte[] bytes)
    {
        string a = Told(bytes, null), b = Told(bytes, ByXmlReader);
        if (a == b || b.Contains("longer than 127 characters", StringComparison.Ordinal))
        {
            return null;
        }

        int at = a.AsSpan().CommonPrefixLength(b);
        return $"'{Around(a, at)}' but by the XML reader alone '{Around(b, at)}'";

        static string Around(string s, int at) => s[Math.Max(0, at - 60)..Math.Min(s.Length, at + 100)];
    }

    private static string Told(byte[] bytes, RouteReadOptions? options)
    {
        var text = new StringBuilder();
        try
        {
            RouteFile file = RouteFile.Read(new MemoryStream(bytes), "mixed", options);
            foreach (RouteLine l in file.Lines)
            {
                text.Append(CultureInfo.InvariantCulture, $"{l.Name} {l.Points.Count}:");
                foreach (RoutePoint p in l.Points)
                {
                    text.Append(CultureInfo.InvariantCulture, $" {p.Place.LatDeg:R},{p.Place.LonDeg:R},{p.Place.ElevationM:R},{p.Time:O}");
                }

                text.Append('\n');
            }

            text.AppendJoin('\n', file.Findings.Select(f => $"{f.Code} {f.Subject} {f.Message}"));
        }
        catch (InputFormatException e)
        {
            text.Append(e.Message);
        }

        return text.ToString();
    }
}
