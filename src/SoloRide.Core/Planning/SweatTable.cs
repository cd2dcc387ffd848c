using SoloRide.Daylight;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>
/// Sweat rate over clock, height and metabolic power, from the sweat estimator at a few nodes; linear between them. Also the heat along the clock.
/// </summary>
internal sealed class SweatTable
{
    public const double WarmerK = 3;
    private const int PowerNodes = 4;

    [Source("assumption-air-over-rider", "share of mean speed that counts as air over the body, calm days")]
    private const double AirShareOfSpeed = 0.6;

    private readonly int _heights;
    private readonly double _lowM;
    private readonly double _stepM;
    private readonly double _lowW;
    private readonly double _stepW;
    private readonly double[] _typical;
    private readonly double[] _warm;

    public SweatTable(RideRequest request, WeatherAlong weather, GeoPoint middle, double lowM, double highM, double lowW, double highW, double meanMps, DateTimeOffset from, int columns, int lastFound, List<Finding> findings)
    {
        Columns = columns;
        bool flat = double.IsNaN(lowM) || highM - lowM < 100;
        _heights = flat ? 1 : 3;
        _lowM = lowM;
        _stepM = flat ? 1 : (highM - lowM) / 2;
        _lowW = lowW;
        _stepW = Math.Max(1e-9, (highW - lowW) / (PowerNodes - 1));
        _typical = new double[columns * _heights * PowerNodes];
        _warm = new double[_typical.Length];
        WbgtC = new double[columns];
        Category = new HeatCategory[columns];
        var seen = new Dictionary<string, Finding>(StringComparer.Ordinal);
        double logSpread = 0;
        int spreads = 0;
        for (int g = 0; g < columns; g++)
        {
            DateTimeOffset t = from.AddHours(g);
            SolarPosition sun = SolarPosition.At(t, middle);
            for (int e = 0; e < _heights; e++)
            {
                double height = flat ? (double.IsNaN(lowM) ? 0 : (lowM + highM) / 2) : _lowM + (e * _stepM);
                var place = new GeoPoint(middle.LatDeg, middle.LonDeg, height);
                Weather w = weather.Filled(t, place);
                ClearSkyIrradiance sky = ClearSkyIrradiance.Of(sun, place, Math.Clamp(w.CloudPct / 100, 0, 1));
                double absorbed = 0;
                if (sky.GlobalWPerM2 > 0)
                {
                    absorbed = SunOnRider.At(new SunInput
                    {
                        SunAltitudeDeg = sun.AltitudeDeg,
                        AirTemperature = Temperature.FromDegreesCelsius(Math.Clamp(w.AirTempC, -60, 60)),
                        RelHumidityPct = Math.Clamp(w.RelHumidityPct, 0, 100),
                        CloudPct = Math.Clamp(w.CloudPct, 0, 100),
                        GlobalIrradiance = sky.Global,
                        DiffuseIrradiance = sky.Diffuse,
                    }).Absorbed.WattsPerSquareMeter;
                }

                if (e == _heights / 2)
                {
                    OutdoorHeat heat = OutdoorHeat.At(new OutdoorConditions
                    {
                        AirTemperature = Temperature.FromDegreesCelsius(Math.Clamp(w.AirTempC, -40, 60)),
                        RelHumidityPct = Math.Clamp(w.RelHumidityPct, 0, 100),
                        Wind = Speed.FromMetersPerSecond(Math.Clamp(w.WindMps, 0, 30)),
                        Elevation = Length.FromMeters(Math.Clamp(height, -300, 5500)),
                        SunAltitudeDeg = sun.AltitudeDeg,
                        GlobalIrradiance = sky.Global,
                    });
                    WbgtC[g] = heat.WetBulbGlobe.DegreesCelsius;
                    Category[g] = heat.Category;
                }

                for (int m = 0; m < PowerNodes; m++)
                {
                    double metabolic = Math.Max(60, _lowW + (m * _stepW));
                    double work = WorkOf(metabolic);
                    SweatEstimate estimate = At(request, w, metabolic, work, absorbed, meanMps);
                    foreach (Finding f in g <= lastFound ? estimate.Findings : [])
                    {
                        seen.TryAdd(f.Code, f);
                    }

                    int at = (((g * _heights) + e) * PowerNodes) + m;
                    _typical[at] = estimate.Rate.Typical.LitersPerHour;
                    _warm[at] = At(request, w with { AirTempC = Math.Min(w.AirTempC + WarmerK, 60) }, metabolic, work, absorbed, meanMps).Rate.Typical.LitersPerHour;
                    if (estimate.Rate.Low.LitersPerHour > 0.02 && m == PowerNodes / 2)
                    {
                        logSpread += Math.Log(estimate.Rate.High.LitersPerHour / estimate.Rate.Low.LitersPerHour);
                        spreads++;
                    }
                }
            }
        }

        // The band is P10 to P90: 2.563 standard deviations wide.
        Sigma = spreads > 0 ? logSpread / spreads / (2 * NormalKernel.Z90) : 0.3;
        findings.AddRange(seen.Values);
    }

    public int Columns { get; }

    /// <summary>Spread of the rate as a standard deviation of its logarithm, the mean over the table.</summary>
    public double Sigma { get; }

    public double[] WbgtC { get; }

    public HeatCategory[] Category { get; }

    public (double Typical, double Warm) At(int column, double heightM, double metabolicW)
    {
        double y = _heights == 1 || double.IsNaN(heightM) ? 0 : Math.Clamp((heightM - _lowM) / _stepM, 0, _heights - 1);
        double x = Math.Clamp((metabolicW - _lowW) / _stepW, 0, PowerNodes - 1);
        int y0 = Math.Min((int)y, Math.Max(0, _heights - 2)), x0 = Math.Min((int)x, PowerNodes - 2);
        double fy = _heights == 1 ? 0 : y - y0, fx = x - x0;
        return (Blend(_typical), Blend(_warm));

        double Blend(double[] t)
        {
            double low = Row(t, y0), high = _heights == 1 ? low : Row(t, y0 + 1);
            return low + ((high - low) * fy);
        }

        double Row(double[] t, int e)
        {
            int at = (((column * _heights) + e) * PowerNodes) + x0;
            return t[at] + ((t[at + 1] - t[at]) * fx);
        }
    }

    /// <summary>Power at the pedals that goes with a metabolic rate [W].</summary>
    public static double WorkOf(double metabolicW) => Math.Max(0, 0.2 * (metabolicW - 110));

    /// <summary>Air over the body: the wind, or a share of the mean speed on calm days [m/s].</summary>
    public static double AirMps(double windMps, double meanMps) => Math.Clamp(Math.Max(windMps, AirShareOfSpeed * meanMps), 0.2, 30);

    private static SweatEstimate At(RideRequest request, Weather w, double metabolicW, double workW, double absorbed, double meanMps)
        => SweatRateEstimator.Estimate(
            new SweatConditions
            {
                Rider = request.Rider,
                Weather = w with { AirTempC = Math.Clamp(w.AirTempC, -40, 60), RelHumidityPct = Math.Clamp(w.RelHumidityPct, 0, 100) },
                MetabolicRate = Power.FromWatts(metabolicW),
                WorkPower = Power.FromWatts(workW),
                SolarLoadWPerM2 = Math.Clamp(absorbed, 0, 400),
                AirSpeed = Speed.FromMetersPerSecond(AirMps(w.WindMps, meanMps)),
                ClothingClo = request.Options.ClothingClo,
            },
            request.Sweat);
}
