using System.Globalization;
using System.Text;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A weather forecast for one or several places along the route.</summary>
/// <remarks>
/// <para>Read from a documented CSV: comment lines <c># place: NAME</c>, <c># elevation_m: N</c>, <c># issued: RFC 3339</c> and, to choose between
/// several places, <c># lat: N</c>, <c># lon: N</c>; then a header with <c>time</c> (RFC 3339) and any of <c>air_temp_c</c>, <c>rel_humidity_pct</c>,
/// <c>wind_mps</c>, <c>wind_from_deg</c> (10 m above ground), <c>gust_mps</c>, <c>cloud_pct</c>, <c>precip_mm</c> (hour before), <c>thunder_pct</c>.
/// An empty cell means unknown.</para>
/// <para>Between hours values are linear in time, wind as a vector; precipitation belongs to the hour before the next line. Nothing is extrapolated.</para>
/// <para>Immutable; safe to share between threads.</para>
/// </remarks>
[Entry(NoOutsideCheck = "carries the caller's numbers; interpolation is checked in closed form")]
public sealed record Forecast
{
    private static readonly string[] Columns =
        ["time", "air_temp_c", "rel_humidity_pct", "wind_mps", "wind_from_deg", "gust_mps", "cloud_pct", "precip_mm", "thunder_pct"];

    private static readonly (double Low, double High, string Unit)[] Ranges =
    [
        (0, 0, ""), (-80, 60, "deg C"), (0, 100, "%"), (0, 120, "m/s"), (0, 360, "deg"), (0, 150, "m/s"), (0, 100, "%"), (0, 500, "mm"), (0, 100, "%"),
    ];

    /// <summary>Makes a forecast from places.</summary>
    /// <param name="places">At least one.</param>
    /// <param name="options">How it is brought to the rider; defaults when null.</param>
    /// <exception cref="ArgumentException">No places.</exception>
    public Forecast(IEnumerable<ForecastPlace> places, ForecastOptions? options = null)
    {
        Places = [.. Guard.NotNull(places)];
        Options = options ?? ForecastOptions.Default;
        if (Places.Count == 0)
        {
            throw new ArgumentException("A forecast needs at least one place.", nameof(places));
        }
    }

    /// <summary>The places.</summary>
    public IReadOnlyList<ForecastPlace> Places { get; }

    /// <summary>How it is brought to the rider.</summary>
    public ForecastOptions Options { get; init; }

    /// <summary>First instant that every place covers.</summary>
    public DateTimeOffset From => Places.Max(p => p.Hours[0].Time);

    /// <summary>Last instant that every place covers.</summary>
    public DateTimeOffset To => Places.Min(p => p.Hours[^1].Time);

    /// <summary>Reads one file a place.</summary>
    /// <param name="paths">CSV files.</param>
    /// <returns>The forecast.</returns>
    /// <exception cref="InputFormatException">A file is not of the documented form; says line and position.</exception>
    /// <exception cref="IOException">A file cannot be read.</exception>
    public static Forecast Read(params string[] paths)
    {
        Guard.NotNull(paths);
        var places = new List<ForecastPlace>();
        foreach (string path in paths)
        {
            using var reader = new StreamReader(path, Encoding.UTF8);
            places.Add(ParsePlace(reader, Path.GetFileName(path)));
        }

        return new Forecast(places);
    }

    /// <summary>Reads the CSV of one place.</summary>
    /// <param name="reader">The text.</param>
    /// <param name="sourceName">Name for messages; also the place's name when the text has none.</param>
    /// <returns>The place.</returns>
    /// <exception cref="InputFormatException">The text is not of the documented form; says line and position.</exception>
    public static ForecastPlace ParsePlace(TextReader reader, string sourceName)
    {
        Guard.NotNull(reader);
        Guard.NotEmpty(sourceName);
        string name = sourceName;
        double elevationM = double.NaN, lat = double.NaN, lon = double.NaN;
        DateTimeOffset? issued = null;
        int[]? columns = null;
        var hours = new List<ForecastHour>();
        int lineNo = 0;
        while (reader.ReadLine() is { } line)
        {
            lineNo++;
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            if (line.StartsWith('#'))
            {
                int colon = line.IndexOf(':', StringComparison.Ordinal);
                if (colon < 0)
                {
                    continue;
                }

                string key = line[1..colon].Trim();
                string value = line[(colon + 1)..].Trim();
                switch (key)
                {
                    case "place": name = value.Length > 0 ? value : name; break;
                    case "elevation_m": elevationM = Number(value, -500, 9000, "m", sourceName, lineNo, colon + 2); break;
                    case "lat": lat = Number(value, -90, 90, "deg", sourceName, lineNo, colon + 2); break;
                    case "lon": lon = Number(value, -180, 180, "deg", sourceName, lineNo, colon + 2); break;
                    case "issued": issued = Instant(value, sourceName, lineNo, colon + 2); break;
                    default: break;
                }

                continue;
            }

            string[] cells = line.Split(',');
            if (columns is null)
            {
                columns = Header(cells, sourceName, lineNo);
                continue;
            }

            hours.Add(Row(cells, columns, sourceName, lineNo));
            if (hours.Count > 1 && hours[^1].Time <= hours[^2].Time)
            {
                throw new InputFormatException(sourceName, lineNo, 1, "time must be later than on the line before.");
            }
        }

        if (columns is null || hours.Count == 0)
        {
            throw new InputFormatException(sourceName, lineNo, 1, "expected a header line that begins with 'time' and at least one line of values.");
        }

        GeoPoint? position = double.IsNaN(lat) || double.IsNaN(lon) ? null : new GeoPoint(lat, lon, elevationM);
        return new ForecastPlace(name, Si.Length(elevationM), hours, position, issued);
    }

    /// <summary>Weather at an instant and place.</summary>
    /// <param name="instant">When.</param>
    /// <param name="place">Where; its height corrects the temperature, its position chooses among several places.</param>
    /// <returns>The weather at the rider; unknown when the forecast does not cover the instant.</returns>
    public WeatherAtRider At(DateTimeOffset instant, GeoPoint place)
    {
        ForecastPlace source = Choose(place);
        IReadOnlyList<ForecastHour> hours = source.Hours;
        if (instant < hours[0].Time || instant > hours[^1].Time)
        {
            return new WeatherAtRider(Weather.Unknown, source.Name, false);
        }

        int lo = 0, hi = hours.Count - 1;
        while (hi - lo > 1)
        {
            int mid = (lo + hi) / 2;
            if (hours[mid].Time <= instant)
            {
                lo = mid;
            }
            else
            {
                hi = mid;
            }
        }

        Weather a = hours[lo].Weather, b = hours[hi].Weather;
        double span = (hours[hi].Time - hours[lo].Time).TotalSeconds;
        double f = span > 0 ? (instant - hours[lo].Time).TotalSeconds / span : 0;
        (double wind, double from) = Vector(a, b, f);
        double tempC = Linear(a.AirTempC, b.AirTempC, f);
        double sourceM = Si.M(source.Elevation);
        if (!double.IsNaN(sourceM) && !double.IsNaN(place.ElevationM))
        {
            tempC -= Options.LapseKPerKm * (place.ElevationM - sourceM) / 1000;
        }

        return new WeatherAtRider(
            new Weather
            {
                AirTempC = tempC,
                RelHumidityPct = Linear(a.RelHumidityPct, b.RelHumidityPct, f),
                WindMps = wind * Options.WindShelterFactor,
                WindFromDeg = from,
                GustMps = Linear(a.GustMps, b.GustMps, f) * Options.WindShelterFactor,
                CloudPct = Linear(a.CloudPct, b.CloudPct, f),
                PrecipMm = f == 0 ? a.PrecipMm : b.PrecipMm,
                ThunderPct = Linear(a.ThunderPct, b.ThunderPct, f),
            },
            source.Name,
            true);
    }

    private static double Linear(double a, double b, double f) => f == 0 ? a : f == 1 ? b : a + ((b - a) * f);

    private static (double WindMps, double FromDeg) Vector(Weather a, Weather b, double f)
    {
        if (double.IsNaN(a.WindFromDeg) || double.IsNaN(b.WindFromDeg))
        {
            return (Linear(a.WindMps, b.WindMps, f), f == 0 ? a.WindFromDeg : f == 1 ? b.WindFromDeg : double.NaN);
        }

        (double sa, double ca) = Math.SinCos(a.WindFromDeg * Math.PI / 180);
        (double sb, double cb) = Math.SinCos(b.WindFromDeg * Math.PI / 180);
        double x = Linear(a.WindMps * sa, b.WindMps * sb, f);
        double y = Linear(a.WindMps * ca, b.WindMps * cb, f);
        double deg = Math.Atan2(x, y) * 180 / Math.PI;
        return (Math.Sqrt((x * x) + (y * y)), deg < 0 ? deg + 360 : deg);
    }

    private static int[] Header(string[] cells, string source, int line)
    {
        var index = new int[cells.Length];
        for (int i = 0; i < cells.Length; i++)
        {
            index[i] = Array.IndexOf(Columns, cells[i].Trim());
            if (index[i] < 0)
            {
                throw new InputFormatException(source, line, i + 1, $"unknown column '{cells[i].Trim()}'; known are {string.Join(", ", Columns)}.");
            }
        }

        return Array.IndexOf(index, 0) >= 0
            ? index
            : throw new InputFormatException(source, line, 1, "the header has no column 'time'.");
    }

    private static ForecastHour Row(string[] cells, int[] columns, string source, int line)
    {
        if (cells.Length != columns.Length)
        {
            throw new InputFormatException(source, line, 1, string.Create(CultureInfo.InvariantCulture, $"{cells.Length} cells; the header has {columns.Length}."));
        }

        Span<double> values = stackalloc double[Columns.Length];
        values.Fill(double.NaN);
        DateTimeOffset time = default;
        for (int i = 0; i < cells.Length; i++)
        {
            string cell = cells[i].Trim();
            int c = columns[i];
            if (c == 0)
            {
                time = Instant(cell, source, line, i + 1);
            }
            else if (cell.Length > 0)
            {
                values[c] = Number(cell, Ranges[c].Low, Ranges[c].High, Ranges[c].Unit, source, line, i + 1);
            }
        }

        return new ForecastHour(time, new Weather
        {
            AirTempC = values[1],
            RelHumidityPct = values[2],
            WindMps = values[3],
            WindFromDeg = values[4],
            GustMps = values[5],
            CloudPct = values[6],
            PrecipMm = values[7],
            ThunderPct = values[8],
        });
    }

    private static double Number(string text, double low, double high, string unit, string source, int line, int position)
        => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) && v >= low && v <= high
            ? v
            : throw new InputFormatException(
                source, line, position, string.Create(CultureInfo.InvariantCulture, $"'{text}' is no number from {low} to {high} {unit}."));

    private static DateTimeOffset Instant(string text, string source, int line, int position)
        => text.Length > 10 && (text.EndsWith('Z') || text.LastIndexOfAny(['+', '-']) > 9)
            && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset t)
            ? t
            : throw new InputFormatException(source, line, position, $"'{text}' is no RFC 3339 time with an offset, such as 2027-06-14T05:00:00-06:00.");

    private ForecastPlace Choose(GeoPoint place)
    {
        ForecastPlace best = Places[0];
        double least = double.PositiveInfinity;
        foreach (ForecastPlace p in Places)
        {
            double d;
            if (p.Position is { } q)
            {
                double dLon = Math.IEEERemainder(q.LonDeg - place.LonDeg, 360) * Math.Cos(place.LatDeg * Math.PI / 180);
                double dLat = q.LatDeg - place.LatDeg;
                d = Math.Sqrt((dLon * dLon) + (dLat * dLat));
            }
            else
            {
                // Without a position the nearest height decides; a thousand metres count like a degree.
                d = Math.Abs((p.Elevation?.Meters ?? 0) - (double.IsNaN(place.ElevationM) ? 0 : place.ElevationM)) / 1000;
            }

            if (d < least)
            {
                least = d;
                best = p;
            }
        }

        return best;
    }
}
