using System.Globalization;
using SoloRide.Daylight;

namespace SoloRide.Accuracy;

internal sealed class DaylightTables : IModuleTables
{
    private const double Arcsec = 180 / Math.PI * 3600;
    private static readonly string[] Crossings = ["sunrise", "sunset", "civil_dawn", "civil_dusk", "nautical_dawn", "nautical_dusk", "astro_dawn", "astro_dusk"];

    public string Module => "daylight";

    public IEnumerable<TableCheck> Tables =>
    [
        new("daylight/solar_positions.csv", TruthKind.OutsideTruth, SolarPositions),
        new("daylight/sun_events.csv", TruthKind.OutsideTruth, SunEvents),
        new("daylight/moon.csv", TruthKind.OutsideTruth, Moon),
        new("daylight/anchor_horizons_sun_airless.csv", TruthKind.OutsideTruth, HorizonsSun),
        new("daylight/anchor_horizons_moon_airless.csv", TruthKind.OutsideTruth, HorizonsMoon),
        new("daylight/anchor_horizons_moon_phase.csv", TruthKind.OutsideTruth, HorizonsPhase),
        new("daylight/anchor_usno_sun_riseset.csv", TruthKind.OutsideTruth, AlmanacMinutes),
    ];

    private static DaylightOptions Options(CsvRow r) => new()
    {
        Ut1MinusUtc = TimeSpan.FromTicks((long)Math.Round(r.Num("dut1_s") * TimeSpan.TicksPerSecond)),
        DeltaT = TimeSpan.FromTicks((long)Math.Round(r.Num("delta_t_s") * TimeSpan.TicksPerSecond)),
    };

    private static DateTimeOffset Utc(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);

    /// <summary>Angle between two directions given as azimuth and altitude [deg], in arcsec.</summary>
    private static double Between(double az1, double alt1, double az2, double alt2)
    {
        const double rad = Math.PI / 180;
        double dAz = (az1 - az2) * rad, a = alt1 * rad, b = alt2 * rad;
        double sinHalfAlt = Math.Sin((a - b) / 2), sinHalfAz = Math.Sin(dAz / 2);
        return 2 * Math.Asin(Math.Min(1, Math.Sqrt((sinHalfAlt * sinHalfAlt) + (Math.Cos(a) * Math.Cos(b) * sinHalfAz * sinHalfAz)))) * Arcsec;
    }

    private static TableResult SolarPositions(RunContext run)
    {
        var direction = new ErrorStats();
        var distance = new ErrorStats();
        foreach (CsvRow r in run.Table("daylight/solar_positions.csv").Rows)
        {
            SolarPosition p = SolarPosition.At(Utc(r["utc"]), new GeoPoint(r.Num("lat_deg"), r.Num("lon_deg"), r.Num("elevation_m")), Options(r));
            direction.Add(Between(p.AzimuthDeg, p.AltitudeDeg, r.Num("azimuth_deg"), r.Num("elevation_deg")));
            distance.Add((p.Distance.Meters / 149597870700) - r.Num("distance_au"));
        }

        return new TableResult(direction.Count, direction.Worst, direction.Rms, "arcsec",
            new Measure("largest angle between directions", direction.Worst, "arcsec", 0.6, false, 0.55),
            new Measure("rms angle between directions", direction.Rms, "arcsec", 0.2, false, 0.18),
            new Measure("largest error of distance", distance.Worst * 149597870.7, "km"));
    }

    private static TableResult SunEvents(RunContext run)
    {
        int wrong = 0, rows = 0;
        var fast = new ErrorStats();
        var all = new ErrorStats();
        var transit = new ErrorStats();
        var transitAltitude = new ErrorStats();
        var lowest = new ErrorStats();
        var highest = new ErrorStats();
        foreach (CsvRow r in run.Table("daylight/sun_events.csv").Rows)
        {
            rows++;
            DateTimeOffset start = Utc(r["window_start_utc"]);
            ZoneOffsets zone = ZoneOffsets.Fixed(r.Num("utc_offset_h"));
            SolarDay day = SolarDay.On(
                DateOnly.Parse(r["local_date"], CultureInfo.InvariantCulture), new GeoPoint(r.Num("lat_deg"), r.Num("lon_deg"), 0), zone, Options(r));
            wrong += day.Starts == start ? 0 : 1;
            SunEvent[] events = [day.Sunrise, day.Sunset, day.CivilDawn, day.CivilDusk, day.NauticalDawn, day.NauticalDusk, day.AstronomicalDawn, day.AstronomicalDusk];
            double slowest = r.Num("slowest_rate_arcsec_per_s");
            for (int i = 0; i < 8; i++)
            {
                string[] truth = [.. r[Crossings[i]].Split(';').Where(t => t.Length > 0 && t != "none")];
                DateTimeOffset[] got = [.. events[i].All];
                string state = r[i < 2 ? "state_riseset" : i < 4 ? "state_civil" : i < 6 ? "state_nautical" : "state_astro"];
                bool stateRight = events[i].State == (truth.Length > 0 ? SunEventState.Occurs
                    : state == "always_above" ? SunEventState.AlwaysAbove : state == "always_below" ? SunEventState.AlwaysBelow : SunEventState.NotInThisDay);
                if (!stateRight || got.Length != truth.Length)
                {
                    wrong++;
                    continue;
                }

                for (int k = 0; k < truth.Length; k++)
                {
                    double error = (got[k] - Utc(truth[k])).TotalSeconds;
                    all.Add(error);
                    if (slowest >= 5)
                    {
                        fast.Add(error);
                    }
                }
            }

            if (r["transit"] is { Length: > 0 } t0 && t0 != "none")
            {
                transit.Add(day.Transit.At is { } at ? (at - Utc(t0)).TotalSeconds : double.NaN);
                transitAltitude.Add(((day.TransitAltitude?.Degrees ?? double.NaN) - r.Num("transit_alt_deg")) * 3600);
            }
            else
            {
                wrong += day.Transit.At is null ? 0 : 1;
            }

            highest.Add((day.HighestAltitude.Degrees - r.Num("max_alt_deg")) * 3600);

            // A minimum within five minutes of the window's edge was not refined in the table.
            double low = (day.LowestAltitude.Degrees - r.Num("min_alt_deg")) * 3600;
            if (low > -1)
            {
                lowest.Add(low);
            }
        }

        return new TableResult(rows, all.Worst, all.Rms, "s",
            new Measure("wrong states, missing or extra events", wrong, "", 0),
            new Measure("worst crossing where the row's slowest rate is 5 arcsec/s or more", fast.Worst, "s", 0.1, false, 0.09),
            new Measure("worst crossing on every row", all.Worst, "s", 1.5, false, 1.0),
            new Measure("worst transit", transit.Worst, "s", 0.04, false, 0.038),
            new Measure("worst transit altitude", transitAltitude.Worst, "arcsec"),
            new Measure("worst highest altitude", highest.Worst, "arcsec"),
            new Measure("worst lowest altitude, away from window edges", lowest.Worst, "arcsec"));
    }

    private static TableResult Moon(RunContext run)
    {
        var direction = new ErrorStats();
        var fraction = new ErrorStats();
        var distance = new ErrorStats();
        var phase = new ErrorStats();
        foreach (CsvRow r in run.Table("daylight/moon.csv").Rows)
        {
            MoonPosition p = MoonPosition.At(Utc(r["utc"]), new GeoPoint(r.Num("lat_deg"), r.Num("lon_deg"), r.Num("elevation_m")), Options(r));
            direction.Add(Between(p.AzimuthDeg, p.AltitudeDeg, r.Num("azimuth_deg"), r.Num("altitude_deg")));
            fraction.Add(p.IlluminatedFraction - r.Num("illuminated_fraction_topo"));
            fraction.Add(((1 + Math.Cos(p.View.PhaseAngleGeoRad)) / 2) - r.Num("illuminated_fraction_geo"));
            distance.Add(p.Distance.Kilometers - r.Num("distance_topo_km"));
            distance.Add(p.GeocentricDistance.Kilometers - r.Num("distance_geo_km"));
            phase.Add(p.PhaseAngle.Degrees - r.Num("phase_angle_topo_deg"));
        }

        return new TableResult(direction.Count, direction.Worst, direction.Rms, "arcsec",
            new Measure("largest angle between directions", direction.Worst, "arcsec", 15, false, 10.5),
            new Measure("largest error of the illuminated fraction", fraction.Worst, "", 3e-5, false, 2e-5),
            new Measure("largest error of distance", distance.Worst, "km", 15, false, 10.5),
            new Measure("largest error of the phase angle", phase.Worst, "deg"));
    }

    private static TableResult HorizonsSun(RunContext run)
    {
        var clock = new EarthClock(run);
        var direction = new ErrorStats();
        var beyond = new ErrorStats();
        foreach (CsvRow r in run.Table("daylight/anchor_horizons_sun_airless.csv").Rows)
        {
            DateTimeOffset utc = Utc(r["utc"]);
            SolarPosition p = SolarPosition.At(utc, new GeoPoint(r.Num("lat"), r.Num("lon"), r.Num("h_m")), clock.At(utc));
            double e = Between(p.AzimuthDeg, p.AltitudeDeg, r.Num("az_deg"), r.Num("el_airless_deg"));
            direction.Add(e);
            beyond.Add(Math.Max(0, e - Step(r.Num("el_airless_deg"))));
        }

        return new TableResult(direction.Count, direction.Worst, direction.Rms, "arcsec",
            new Measure("largest angle beyond the table's step", beyond.Worst, "arcsec", 1, false, 0.2),
            new Measure("largest angle", direction.Worst, "arcsec"));
    }

    // Half a step of 1e-4 deg in both columns, in arcsec of direction.
    private static double Step(double altitudeDeg)
        => 0.5e-4 * 3600 * Math.Sqrt(1 + Math.Pow(Math.Cos(altitudeDeg * Math.PI / 180), 2));

    private static TableResult HorizonsMoon(RunContext run)
    {
        var clock = new EarthClock(run);
        var direction = new ErrorStats();
        foreach (CsvRow r in run.Table("daylight/anchor_horizons_moon_airless.csv").Rows)
        {
            DateTimeOffset utc = Utc(r["utc"]);
            MoonPosition p = MoonPosition.At(utc, new GeoPoint(r.Num("lat"), r.Num("lon"), r.Num("h_m")), clock.At(utc));
            direction.Add(Between(p.AzimuthDeg, p.AltitudeDeg, r.Num("az_deg"), r.Num("el_airless_deg")));
        }

        return direction.Result("arcsec", 15, "largest angle between directions");
    }

    private static TableResult HorizonsPhase(RunContext run)
    {
        var clock = new EarthClock(run);
        var phase = new ErrorStats();
        var distance = new ErrorStats();
        foreach (CsvRow r in run.Table("daylight/anchor_horizons_moon_phase.csv").Rows)
        {
            DateTimeOffset utc = Utc(r["utc"]);
            MoonPosition p = MoonPosition.At(utc, new GeoPoint(0, 0, 0), clock.At(utc));
            phase.Add((p.View.PhaseAngleGeoRad * 180 / Math.PI) - r.Num("phase_sto_deg"));
            distance.Add(p.GeocentricDistance.Kilometers - (r.Num("delta_au") * 149597870.7));
        }

        // The column carries aberration legs of up to 41 arcsec, which the phase angle by definition does not.
        return new TableResult(phase.Count, phase.Worst, phase.Rms, "deg",
            new Measure("largest difference of the phase angle", phase.Worst, "deg", 0.02, false, 0.015),
            new Measure("largest error of distance", distance.Worst, "km"));
    }

    private static TableResult AlmanacMinutes(RunContext run)
    {
        var minutes = new ErrorStats();
        var polar = new ErrorStats();
        foreach (CsvRow r in run.Table("daylight/anchor_usno_sun_riseset.csv").Rows)
        {
            DateTimeOffset truth = Utc(r["utc_minute"]);
            var place = new GeoPoint(r.Num("lat"), r.Num("lon"), 0);
            bool rise = r["kind"] == "rise";
            double best = double.PositiveInfinity;
            for (int d = -1; d <= 1; d++)
            {
                SolarDay day = SolarDay.On(DateOnly.FromDateTime(truth.UtcDateTime).AddDays(d), place, ZoneOffsets.Utc);
                SunEvent e = rise ? day.Sunrise : day.Sunset;
                foreach (DateTimeOffset? at in new[] { e.At, e.Again })
                {
                    best = at is { } a ? Math.Min(best, Math.Abs((a - truth).TotalSeconds)) : best;
                }
            }

            (Math.Abs(r.Num("lat")) < 61 ? minutes : polar).Add(best);
        }

        return new TableResult(minutes.Count, minutes.Worst, minutes.Rms, "s",
            new Measure("worst difference from the whole minute, latitudes below 61 deg", minutes.Worst, "s", 35, false, 34),
            new Measure("worst difference nearer the poles", polar.Worst, "s"));
    }

    /// <summary>The turning Earth for tables that carry no UT1: the three tables that do, interpolated over time.</summary>
    private sealed class EarthClock
    {
        private static readonly (int Year, int Month, int TaiMinusUtc)[] Leaps =
        [
            (1980, 1, 19), (1981, 7, 20), (1982, 7, 21), (1983, 7, 22), (1985, 7, 23), (1988, 1, 24), (1990, 1, 25), (1991, 1, 26), (1992, 7, 27),
            (1993, 7, 28), (1994, 7, 29), (1996, 1, 30), (1997, 7, 31), (1999, 1, 32), (2006, 1, 33), (2009, 1, 34), (2012, 7, 35), (2015, 7, 36), (2017, 1, 37),
        ];

        private readonly (DateTimeOffset Utc, double DeltaT)[] _points;

        public EarthClock(RunContext run)
            => _points = [.. Rows(run, "solar_positions.csv", "utc").Concat(Rows(run, "moon.csv", "utc")).Concat(Rows(run, "sun_events.csv", "window_start_utc")).OrderBy(p => p.Item1)];

        public DaylightOptions At(DateTimeOffset utc)
        {
            int i = Array.FindIndex(_points, p => p.Utc > utc);
            double deltaT = i <= 0 ? _points[i == 0 ? 0 : ^1].DeltaT
                : _points[i - 1].DeltaT + ((_points[i].DeltaT - _points[i - 1].DeltaT) * ((utc - _points[i - 1].Utc) / (_points[i].Utc - _points[i - 1].Utc)));
            int tai = Leaps.Last(l => new DateTimeOffset(l.Year, l.Month, 1, 0, 0, 0, TimeSpan.Zero) <= utc).TaiMinusUtc;
            return new DaylightOptions { DeltaT = TimeSpan.FromSeconds(deltaT), Ut1MinusUtc = TimeSpan.FromSeconds(32.184 + tai - deltaT) };
        }

        private static IEnumerable<(DateTimeOffset, double)> Rows(RunContext run, string table, string utc)
            => File.Exists(run.File("daylight/" + table)) ? run.Table("daylight/" + table).Rows.Select(r => (Utc(r[utc]), r.Num("delta_t_s"))) : [];
    }
}
