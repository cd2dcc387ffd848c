using SoloRide.Internal;

namespace SoloRide.Accuracy;

/// <summary>Coordinates of messages: UTM, polar grid, military grid, degrees and minutes.</summary>
internal sealed class ContactTables : IModuleTables
{
    public string Module => "contact";

    public IEnumerable<TableCheck> Tables => [new("batteries/coords.csv", TruthKind.OutsideTruth, Coords)];

    // Compared as text in the tests.
    public IEnumerable<string> NoTable => ["batteries/signals.csv"];

    private static TableResult Coords(RunContext context)
    {
        var metres = new ErrorStats();
        var degrees = new ErrorStats();
        var square = new ErrorStats();
        var convergence = new ErrorStats();
        var scale = new ErrorStats();
        int texts = 0, minutes = 0, rows = 0;
        (string Column, GridPrecision Precision)[] columns =
            [("mgrs_1m", GridPrecision.OneMetre), ("mgrs_10m", GridPrecision.TenMetres), ("mgrs_100m", GridPrecision.HundredMetres), ("mgrs_1km", GridPrecision.OneKilometre)];
        foreach (CsvRow row in context.Table("batteries/coords.csv").Rows)
        {
            rows++;
            var place = new GeoPoint(row.Num("lat_deg"), row.Num("lon_deg"));
            UtmPosition p = UtmPosition.Of(place);
            if (!row.IsEmpty("easting_m"))
            {
                bool same = p.Zone == row.Whole("utm_zone") && row["hemisphere"] == (p.Hemisphere == Hemisphere.North ? "n" : "s");
                metres.Add(same ? p.EastingM - row.Num("easting_m") : double.NaN);
                metres.Add(p.NorthingM - row.Num("northing_m"));
            }

            GeoPoint back = p.ToGeoPoint();
            degrees.Add(Away(back, place.LatDeg, place.LonDeg));
            foreach ((string column, GridPrecision precision) in columns)
            {
                texts += row.IsEmpty(column) || row[column] == GridReference.Of(place, precision).ToString() ? 0 : 1;
            }

            if (!row.IsEmpty("mgrs_1m") && GridReference.TryParse(row["mgrs_1m"], out GridReference read))
            {
                square.Add(row.IsEmpty("mgrs1m_centre_lat") ? 0 : Away(read.Centre, row.Num("mgrs1m_centre_lat"), row.Num("mgrs1m_centre_lon")));
                square.Add(row.IsEmpty("mgrs1m_sw_lat") ? 0 : Away(read.SouthWestCorner, row.Num("mgrs1m_sw_lat"), row.Num("mgrs1m_sw_lon")));
            }
            else if (!row.IsEmpty("mgrs_1m"))
            {
                square.Add(double.NaN);
            }

            double c, k;
            if (p.Zone == 0)
            {
                UtmKernel.UpsConvergence(place.LatDeg, place.LonDeg, place.LatDeg >= 0, out c, out k);
            }
            else
            {
                UtmKernel.UtmConvergence(place.LatDeg, place.LonDeg, p.Zone, out c, out k);
            }

            if (!row.IsEmpty("convergence_deg"))
            {
                convergence.Add(UtmKernel.Wrap(c - row.Num("convergence_deg")));
                scale.Add(k - row.Num("scale"));
            }

            minutes += Text(row, place) ? 0 : 1;
        }

        return new TableResult(
            rows, metres.Worst, metres.Rms, "m",
            new Measure("UTM and polar grid, worst", metres.Worst, "m", 0.0002, Floor: 0.0001),
            new Measure("grid texts that differ", texts, "", 0),
            new Measure("there and back, worst", degrees.Worst, "deg", 1e-9, Floor: 1e-12),
            new Measure("middle and corner of the 1 m square, worst", square.Worst, "deg", 1e-9, Floor: 1e-12),
            new Measure("convergence, worst", convergence.Worst, "deg"),
            new Measure("scale, worst", scale.Worst, ""),
            new Measure("degrees and minutes texts that differ (own formatting)", minutes, ""));
    }

    // On the ground: a degree of longitude counts by the parallel.
    private static double Away(GeoPoint p, double latDeg, double lonDeg)
        => Math.Max(Math.Abs(p.LatDeg - latDeg), Math.Abs(UtmKernel.Wrap(p.LonDeg - lonDeg)) * Math.Cos(latDeg * Math.PI / 180));

    private static bool Text(CsvRow row, GeoPoint p)
    {
        bool half = Half(p.LatDeg) || Half(p.LonDeg);
        return (row.IsEmpty("ddm_0.0001min") || half || row["ddm_0.0001min"] == DegreesMinutes.Padded(p, 4))
            && (row.IsEmpty("dms_0.01s") || row["dms_0.01s"] == DegreesMinutes.Seconds(p));

        static bool Half(double deg) => Math.Abs((Math.Abs(deg) * 600_000 % 1) - 0.5) < 1e-6;
    }
}
