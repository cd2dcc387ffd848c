using System.Globalization;
using System.Text;

namespace SoloRide.Demo;

/// <summary>One invented ride: what its generated route and forecast must look like.</summary>
/// <param name="Id">S01 to S15.</param>
/// <param name="Title">Name of the ride.</param>
/// <param name="Lat">Latitude of the start [°].</param>
/// <param name="Lon">Longitude of the start [°].</param>
/// <param name="OffsetHours">Local time minus UTC on that day [h].</param>
/// <param name="Start">Local start.</param>
/// <param name="Shape">loop, out-and-back or point-to-point.</param>
/// <param name="Km">Total length [km].</param>
/// <param name="AscentM">Total ascent [m].</param>
/// <param name="TopM">Highest point [m].</param>
/// <param name="Sky">The invented weather.</param>
public sealed record DemoRide(string Id, string Title, double Lat, double Lon, double OffsetHours, DateTime Start, string Shape, double Km, double AscentM, double TopM, DemoSky Sky)
{
    /// <summary>+1 for one climb out and the way back down, -1 for down first, 0 for rolling ground.</summary>
    public int OneSlope { get; init; }

    /// <summary>Bearing of the valley for rides that follow one [°]; NaN when free.</summary>
    public double AxisDeg { get; init; } = double.NaN;

    /// <summary>Named places: distance from the start [km], name, type.</summary>
    public IReadOnlyList<(double Km, string Name, string Type)> Places { get; init; } = [];
}

/// <summary>Invented weather of a day.</summary>
/// <param name="MinC">Lowest air temperature at the forecast's height, at 05:00 [°C].</param>
/// <param name="MaxC">Highest, at 15:00 [°C].</param>
/// <param name="HumidityPct">Mean relative humidity [%].</param>
/// <param name="WindMps">Mean wind at 10 m [m/s].</param>
/// <param name="WindFromDeg">Where it comes from [°].</param>
/// <param name="CloudPct">Cloud [%].</param>
/// <param name="RainMmPerHour">Rain [mm/h].</param>
/// <param name="ThunderFromHour">Hour from which thunder is likely; 99 for none.</param>
public sealed record DemoSky(double MinC, double MaxC, double HumidityPct, double WindMps, double WindFromDeg, double CloudPct, double RainMmPerHour = 0, double ThunderFromHour = 99)
{
    /// <summary>Height that the forecast holds for [m]; NaN: the start's height.</summary>
    public double HeightM { get; init; } = double.NaN;
}

/// <summary>A generated point.</summary>
/// <param name="Lat">[°]</param>
/// <param name="Lon">[°]</param>
/// <param name="EleM">[m]</param>
public readonly record struct DemoPoint(double Lat, double Lon, double EleM);

/// <summary>
/// Makes the invented routes, heights and forecasts of the examples from a seed. Nothing in them is a real place.
/// </summary>
public static class DemoGenerator
{
    private const double SpacingM = 50;
    private const double A = 6378137, F = 1 / 298.257223563;

    /// <summary>The fifteen rides. Length, ascent and top height are those of the scenario table; the rest is invented here.</summary>
    public static IReadOnlyList<DemoRide> All { get; } =
    [
        new("S01", "Dry Creek Loop", 38.2, -109.4, -6, At(2025, 6, 14, 5, 20), "loop", 58, 1150, 1950, new(19, 37, 18, 3, 220, 2))
        {
            Places = [(0, "Lower Gate", "exit: trailhead"), (31, "Dry Creek", "water: creek"), (44, "Graded Road", "exit: road")],
        },
        new("S02", "Seven Cairns High Loop", 39.6, -106.1, -6, At(2025, 7, 22, 6, 10), "loop", 41, 1780, 3790, new(6, 17, 55, 5, 240, 40, 0, 12.5))
        {
            Places = [(0, "Cairn Trailhead", "exit: trailhead"), (16, "Ridge Start", "junction"), (27, "Ridge End", "junction"), (33, "North Trailhead", "exit: trailhead")],
        },
        new("S03", "Short Day Fell Circuit", 54.5, -3.0, 0, At(2025, 12, 18, 9, 5), "loop", 36, 1240, 720, new(2.5, 4.5, 95, 12.5, 230, 100, 0.8))
        {
            Places = [(0, "Mill Bridge", "exit: road"), (7, "Sled Gate", "exit: road"), (15, "Far Farm", "exit: house"), (22, "Chapel Road", "exit: road"), (30, "Low Wood", "exit: road")],
        },
        new("S04", "Three-Day Traverse", 46.3, 11.6, 2, At(2025, 9, 5, 7, 30), "point-to-point", 164, 6200, 2860, new(2, 12, 70, 3, 300, 50, 0.1))
        {
            Places = [(0, "West Station", "exit: settlement"), (38, "Hut Tap", "water: tap"), (52, "Oller Road", "exit: road"), (97, "Second Tap", "water: tap"), (110, "Pass Road", "exit: road"), (164, "East Station", "exit: settlement")],
        },
        new("S05", "Early Shade Slot", 37.0, -111.6, -7, At(2025, 11, 8, 10, 40), "out-and-back", 29, 520, 1480, new(2, 14, 30, 2, 200, 5))
        {
            OneSlope = -1, AxisDeg = 20, Places = [(0, "Canyon Mouth", "exit: trailhead")],
        },
        new("S06", "Guided Ten", 40.8, -111.9, -6, At(2025, 8, 16, 8, 0), "loop", 27, 690, 2410, new(14, 29, 30, 4, 180, 15))
        {
            Places = [(0, "Copper Barn", "exit: trailhead"), (8, "Bench Road", "exit: road"), (12, "Ranger Tap", "water: tap"), (19, "Mesa Road", "exit: road")],
        },
        new("S07", "Night Finish by Choice", 51.2, -3.8, 1, At(2025, 10, 11, 16, 30), "loop", 31, 640, 480, new(8, 11, 90, 4, 250, 95, 0.2))
        {
            Places = [(0, "Moor Inn", "exit: settlement"), (5, "Lane One", "exit: road"), (10, "Lane Two", "exit: road"), (15, "Lane Three", "exit: road"), (20, "Lane Four", "exit: road"), (25, "Lane Five", "exit: road")],
        },
        new("S08", "River Gate", -44.3, 168.9, 13, At(2025, 12, 2, 7, 10), "out-and-back", 44, 980, 1120, new(8, 17, 75, 4, 300, 70, 0.3))
        {
            AxisDeg = 330, Places = [(0, "Gorge Road", "exit: road"), (9, "First Ford", "ford"), (17, "Second Ford", "ford"), (22, "Head Flat", "camp")],
        },
        new("S09", "Plateau with no Signal Sky", 63.1, -19.6, 0, At(2025, 8, 27, 8, 20), "point-to-point", 72, 1500, 940, new(3, 7, 80, 11, 20, 70, 0.1))
        {
            Places = [(0, "South Track", "exit: road"), (25, "Iron Track", "exit: road"), (72, "North Hut", "exit: hut")],
        },
        new("S10", "Thorn Country", 33.4, -111.1, -7, At(2025, 4, 19, 7, 0), "loop", 49, 880, 1240, new(9, 24, 25, 3, 230, 10))
        {
            Places = [(0, "Basin Gate", "exit: trailhead"), (22, "Ranch Road", "exit: road"), (30, "Stock Tank", "water: tank")],
        },
        new("S11", "Two-Bottle Summit", 45.9, 7.2, 2, At(2025, 7, 9, 5, 50), "out-and-back", 38, 2100, 3020, new(10, 22, 50, 3, 280, 10))
        {
            OneSlope = 1, Places = [(0, "Valley Road", "exit: road"), (14, "Saint Halden Hut", "exit: hut")],
        },
        new("S12", "Late Start After Rain", 35.6, -83.5, -4, At(2025, 5, 24, 12, 15), "loop", 33, 1050, 1520, new(12, 18, 85, 2, 270, 60, 0.1))
        {
            Places = [(0, "Hollow Camp", "exit: trailhead"), (6, "Forest Road A", "exit: road"), (13, "Forest Road B", "exit: road"), (25, "Forest Road C", "exit: road")],
        },
        new("S13", "Contact Abroad", -33.2, 150.3, 11, At(2025, 11, 29, 6, 30), "loop", 55, 1400, 1180, new(15, 31, 30, 6, 300, 10))
        {
            Places = [(0, "Range Gate", "exit: trailhead"), (12, "Kestrow Creek", "water: creek"), (18, "Fire Trail East", "exit: road"), (37, "Fire Trail West", "exit: road")],
        },
        new("S14", "Injured Knee at km 40", 56.9, -4.2, 1, At(2025, 6, 20, 9, 0), "loop", 61, 1320, 830, new(7, 12, 85, 3, 250, 80, 0.1))
        {
            Places = [(0, "Glen House", "exit: house"), (18, "Estate Track South", "exit: road"), (47, "Estate Track North", "exit: road")],
        },
        new("S15", "Charity Fifty", 52.1, 0.9, 1, At(2025, 9, 14, 9, 0), "loop", 50, 410, 140, new(11, 17, 75, 5, 230, 60, 0.2))
        {
            Places = [(0, "Common Green", "exit: settlement"), (14, "Mill Cafe", "exit: settlement"), (25, "Church Lane", "exit: road"), (33, "Ferry Cafe", "exit: settlement"), (42, "Long Lane", "exit: road")],
        },
    ];

    /// <summary>The points of a ride.</summary>
    /// <param name="ride">The ride.</param>
    /// <returns>Points about 50 m apart.</returns>
    public static IReadOnlyList<DemoPoint> Points(DemoRide ride)
    {
        uint seed = 17;
        foreach (char c in ride.Id)
        {
            seed = (seed * 31) + c;
        }

        for (uint attempt = 0; ; attempt++)
        {
            var random = new Random((int)(seed + (attempt * 7919)));
            (double[] x, double[] y) = Plan(ride, random);
            double[] ele = Heights(ride, x.Length, random);
            double floor = ele.Min();
            if (floor > 8 || attempt == 200)
            {
                return Place(ride, x, y, ele);
            }
        }
    }

    /// <summary>The route as GPX 1.1 with its named places.</summary>
    /// <param name="ride">The ride.</param>
    /// <returns>The document.</returns>
    public static string Gpx(DemoRide ride)
    {
        IReadOnlyList<DemoPoint> points = Points(ride);
        var b = new StringBuilder();
        b.Append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"1.1\" creator=\"SoloRide demo generator\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n");
        b.Append("  <metadata>\n    <name>").Append(ride.Title).Append("</name>\n    <desc>Invented place, invented terrain, made by a seeded generator.</desc>\n  </metadata>\n");
        foreach ((double km, string name, string type) in ride.Places)
        {
            DemoPoint p = points[Math.Min(points.Count - 1, (int)Math.Round(km * 1000 / (ride.Km * 1000) * (points.Count - 1)))];
            b.Append(CultureInfo.InvariantCulture, $"  <wpt lat=\"{p.Lat:F6}\" lon=\"{p.Lon:F6}\">\n    <ele>{p.EleM:F1}</ele>\n    <name>{name}</name>\n    <type>{type}</type>\n  </wpt>\n");
        }

        b.Append("  <trk>\n    <name>").Append(ride.Title).Append("</name>\n    <trkseg>\n");
        foreach (DemoPoint p in points)
        {
            b.Append(CultureInfo.InvariantCulture, $"      <trkpt lat=\"{p.Lat:F6}\" lon=\"{p.Lon:F6}\"><ele>{p.EleM:F1}</ele></trkpt>\n");
        }

        b.Append("    </trkseg>\n  </trk>\n</gpx>\n");
        return b.ToString();
    }

    /// <summary>The invented forecast, hourly for three days from the midnight before the start.</summary>
    /// <param name="ride">The ride.</param>
    /// <returns>CSV of the documented form.</returns>
    public static string ForecastCsv(DemoRide ride)
    {
        DemoSky sky = ride.Sky;
        double height = double.IsNaN(sky.HeightM) ? Points(ride)[0].EleM : sky.HeightM;
        var offset = TimeSpan.FromHours(ride.OffsetHours);
        var midnight = new DateTimeOffset(ride.Start.Date, offset);
        var b = new StringBuilder();
        b.Append(CultureInfo.InvariantCulture, $"# place: {ride.Title}\n# elevation_m: {height:F0}\n# issued: {midnight.AddHours(-6):yyyy-MM-ddTHH:mm:sszzz}\n");
        b.Append("time,air_temp_c,rel_humidity_pct,wind_mps,wind_from_deg,gust_mps,cloud_pct,precip_mm,thunder_pct\n");
        for (int h = 0; h <= 72; h++)
        {
            double hour = h % 24;
            // From the low at 05:00 up to the high at 15:00 and down again: two half cosines.
            double up = hour is >= 5 and <= 15 ? (1 - Math.Cos(Math.PI * (hour - 5) / 10)) / 2 : (1 + Math.Cos(Math.PI * ((hour + 24 - 15) % 24) / 14)) / 2;
            double temp = sky.MinC + ((sky.MaxC - sky.MinC) * up);
            double humidity = Math.Clamp(sky.HumidityPct * (1.25 - (0.5 * up)), 5, 100);
            double wind = sky.WindMps * (0.7 + (0.6 * up));
            double thunder = hour >= sky.ThunderFromHour && hour < 20 ? 60 : hour >= sky.ThunderFromHour - 1 && hour < 20 ? 20 : 0;
            double rain = sky.RainMmPerHour + (thunder >= 60 ? 2 : 0);
            b.Append(CultureInfo.InvariantCulture, $"{midnight.AddHours(h):yyyy-MM-ddTHH:mm:sszzz},{temp:F1},{humidity:F0},{wind:F1},{sky.WindFromDeg:F0},{wind * 1.5:F1},{sky.CloudPct:F0},{rain:F1},{thunder:F0}\n");
        }

        return b.ToString();
    }

    /// <summary>File name without ending, such as <c>s01-dry-creek-loop</c>.</summary>
    /// <param name="ride">The ride.</param>
    /// <returns>The name.</returns>
    public static string FileName(DemoRide ride)
        => (ride.Id + "-" + ride.Title).ToLowerInvariant().Replace(' ', '-');

    private static DateTime At(int y, int mo, int d, int h, int mi) => new(y, mo, d, h, mi, 0, DateTimeKind.Unspecified);

    private static (double[] X, double[] Y) Plan(DemoRide ride, Random random)
    {
        double total = ride.Km * 1000;
        double oneWay = ride.Shape == "out-and-back" ? total / 2 : total;
        int n = (int)Math.Round(oneWay / SpacingM);
        var x = new double[n + 1];
        var y = new double[n + 1];
        if (ride.Shape == "loop")
        {
            var amp = new double[8];
            var phase = new double[8];
            for (int k = 2; k < 8; k++)
            {
                amp[k] = 0.30 / k * (0.5 + random.NextDouble());
                phase[k] = random.NextDouble() * 2 * Math.PI;
            }

            double turn = random.NextDouble() * 2 * Math.PI;
            for (int i = 0; i <= n; i++)
            {
                double t = 2 * Math.PI * i / n;
                double r = 1;
                for (int k = 2; k < 8; k++)
                {
                    r += amp[k] * Math.Sin((k * t) + phase[k]);
                }

                x[i] = r * Math.Cos(t + turn);
                y[i] = r * Math.Sin(t + turn);
            }
        }
        else
        {
            bool axis = !double.IsNaN(ride.AxisDeg);
            double bearing = axis ? ride.AxisDeg * Math.PI / 180 : random.NextDouble() * 2 * Math.PI;
            double a1 = axis ? 0.15 : 0.7, a2 = axis ? 0.1 : 0.4;
            double p1 = random.NextDouble() * 6, p2 = random.NextDouble() * 6;
            for (int i = 1; i <= n; i++)
            {
                double u = (double)i / n;
                double b = bearing + (a1 * Math.Sin((9 * u) + p1)) + (a2 * Math.Sin((31 * u) + p2));
                x[i] = x[i - 1] + Math.Sin(b);
                y[i] = y[i - 1] + Math.Cos(b);
            }
        }

        double length = 0;
        for (int i = 1; i <= n; i++)
        {
            length += Math.Sqrt(((x[i] - x[i - 1]) * (x[i] - x[i - 1])) + ((y[i] - y[i - 1]) * (y[i] - y[i - 1])));
        }

        double scale = oneWay / length;
        double x0 = x[0], y0 = y[0];
        for (int i = 0; i <= n; i++)
        {
            x[i] = (x[i] - x0) * scale;
            y[i] = (y[i] - y0) * scale;
        }

        // Points evenly spaced along the line, so that distance and place agree.
        return Even(x, y, n);
    }

    private static (double[] X, double[] Y) Even(double[] x, double[] y, int n)
    {
        var s = new double[x.Length];
        for (int i = 1; i < x.Length; i++)
        {
            s[i] = s[i - 1] + Math.Sqrt(((x[i] - x[i - 1]) * (x[i] - x[i - 1])) + ((y[i] - y[i - 1]) * (y[i] - y[i - 1])));
        }

        var ex = new double[n + 1];
        var ey = new double[n + 1];
        int j = 1;
        for (int i = 0; i <= n; i++)
        {
            double want = s[^1] * i / n;
            while (j < s.Length - 1 && s[j] < want)
            {
                j++;
            }

            double f = s[j] > s[j - 1] ? (want - s[j - 1]) / (s[j] - s[j - 1]) : 0;
            ex[i] = x[j - 1] + ((x[j] - x[j - 1]) * f);
            ey[i] = y[j - 1] + ((y[j] - y[j - 1]) * f);
        }

        return (ex, ey);
    }

    private static double[] Heights(DemoRide ride, int count, Random random)
    {
        var h = new double[count];
        bool loop = ride.Shape == "loop";
        double km = loop || ride.Shape == "point-to-point" ? ride.Km : ride.Km / 2;
        if (ride.OneSlope != 0)
        {
            // One slope of changing steepness, never turning: its rise is the whole ascent.
            double p = random.NextDouble() * 6;
            double sum = 0;
            for (int i = 1; i < count; i++)
            {
                double u = (double)i / (count - 1);
                sum += 1 + (0.45 * Math.Sin((8 * u) + p)) + (0.25 * Math.Sin((23 * u) + (2 * p)));
                h[i] = sum;
            }

            for (int i = 0; i < count; i++)
            {
                h[i] = ride.OneSlope > 0 ? ride.TopM - ride.AscentM + (ride.AscentM * h[i] / sum) : ride.TopM - (ride.AscentM * h[i] / sum);
            }

            return h;
        }

        int waves = (int)Math.Clamp(km / 1.6, 6, 60);
        for (int k = 1; k <= waves; k++)
        {
            double a = (0.4 + random.NextDouble()) / Math.Pow(k, ride.AscentM > 3 * ride.TopM ? 0.6 : 1.05);
            double phase = random.NextDouble() * 2 * Math.PI;
            double turns = loop ? k : k * 0.9;
            for (int i = 0; i < count; i++)
            {
                h[i] += a * Math.Sin((2 * Math.PI * turns * i / (count - 1)) + phase);
            }
        }

        // Out and back: the ascent of both directions counts.
        double up = 0, down = 0;
        for (int i = 1; i < count; i++)
        {
            double d = h[i] - h[i - 1];
            up += Math.Max(0, d);
            down += Math.Max(0, -d);
        }

        double ascent = ride.Shape == "out-and-back" ? up + down : up;
        double scale = ride.AscentM / ascent;
        double top = h.Max();
        for (int i = 0; i < count; i++)
        {
            h[i] = ride.TopM + ((h[i] - top) * scale);
        }

        return h;
    }

    private static List<DemoPoint> Place(DemoRide ride, double[] x, double[] y, double[] ele)
    {
        var points = new List<DemoPoint>();
        double e2 = F * (2 - F);
        double lat = ride.Lat, lon = ride.Lon;
        points.Add(new DemoPoint(lat, lon, ele[0]));
        for (int i = 1; i < x.Length; i++)
        {
            double sin = Math.Sin(lat * Math.PI / 180);
            double w = Math.Sqrt(1 - (e2 * sin * sin));
            double m = A * (1 - e2) / (w * w * w), n = A / w;
            double dLat = (y[i] - y[i - 1]) / m * 180 / Math.PI;
            lon += (x[i] - x[i - 1]) / (n * Math.Cos((lat + (dLat / 2)) * Math.PI / 180)) * 180 / Math.PI;
            lat += dLat;
            points.Add(new DemoPoint(lat, lon, ele[i]));
        }

        if (ride.Shape == "loop")
        {
            points[^1] = points[0] with { EleM = ele[0] };
        }
        else if (ride.Shape == "out-and-back")
        {
            for (int i = x.Length - 2; i >= 0; i--)
            {
                points.Add(points[i]);
            }
        }

        return points;
    }
}
