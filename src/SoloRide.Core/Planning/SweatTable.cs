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
    private readonly double[] _above;
    private readonly double[] _below;
    private readonly double[] _warm;
    private readonly double[] _cloud;
    private readonly double[] _shade;
    private readonly HeatAir[] _air;

    public SweatTable(RideRequest request, WeatherAlong weather, GeoPoint middle, double lowM, double highM, double lowW, double highW, double meanMps, DateTimeOffset from, int columns, int lastFound, bool withShade, List<Finding> findings)
    {
        // The rate changes with half a sky of cloud more or less; per whole sky.
        const double halfSky = 0.5;
        Columns = columns;
        bool flat = double.IsNaN(lowM) || highM - lowM < 100;
        _heights = flat ? 1 : 3;
        _lowM = lowM;
        _stepM = flat ? 1 : (highM - lowM) / 2;
        _lowW = lowW;
        _stepW = Math.Max(1e-9, (highW - lowW) / (PowerNodes - 1));
        _typical = new double[columns * _heights * PowerNodes];
        _above = new double[_typical.Length];
        _below = new double[_typical.Length];
        _warm = new double[_typical.Length];
        _cloud = new double[_typical.Length];
        _shade = withShade ? new double[_typical.Length] : _typical;
        _air = new HeatAir[columns * _heights];
        CloudFraction = new double[columns];
        WbgtC = new double[columns];
        Category = new HeatCategory[columns];
        var seen = new Dictionary<string, Finding>(StringComparer.Ordinal);
        for (int g = 0; g < columns; g++)
        {
            DateTimeOffset t = from.AddHours(g);
            SolarPosition sun = SolarPosition.At(t, middle);
            for (int e = 0; e < _heights; e++)
            {
                double height = flat ? (double.IsNaN(lowM) ? 0 : (lowM + highM) / 2) : _lowM + (e * _stepM);
                var place = new GeoPoint(middle.LatDeg, middle.LonDeg, height);
                Weather w = weather.Filled(t, place);
                double cloud = Math.Clamp(w.CloudPct / 100, 0, 1), other = cloud <= halfSky ? cloud + halfSky : cloud - halfSky;
                ClearSkyIrradiance sky = ClearSkyIrradiance.Of(sun, place, cloud);
                double airMps = AirMps(w.WindMps, meanMps);
                SunOnRider onRider = Sun(sun, w, sky, cloud, 1), inShade = withShade && sky.GlobalWPerM2 > 0 ? Sun(sun, w, sky, cloud, 0) : onRider;
                double absorbed = sky.GlobalWPerM2 > 0 ? onRider.Absorbed.WattsPerSquareMeter : 0;
                double absorbedShade = sky.GlobalWPerM2 > 0 ? inShade.Absorbed.WattsPerSquareMeter : 0;
                double absorbedOther = sky.GlobalWPerM2 > 0 ? Sun(sun, w, ClearSkyIrradiance.Of(sun, place, other), other, 1).Absorbed.WattsPerSquareMeter : 0;
                _air[(g * _heights) + e] = new HeatAir(
                    w.AirTempC, w.RelHumidityPct, airMps, onRider.MeanRadiantTemperature.DegreesCelsius, inShade.MeanRadiantTemperature.DegreesCelsius, absorbed, absorbedShade);

                if (e == _heights / 2)
                {
                    CloudFraction[g] = cloud;
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
                    double work = WorkW(metabolic);
                    SweatEstimate estimate = At(request, w, metabolic, work, absorbed, airMps);
                    foreach (Finding f in g <= lastFound ? estimate.Findings : [])
                    {
                        seen.TryAdd(f.Code, f);
                    }

                    int at = (((g * _heights) + e) * PowerNodes) + m;
                    _typical[at] = estimate.Rate.Typical.LitersPerHour;
                    _above[at] = estimate.Rate.High.LitersPerHour - _typical[at];
                    _below[at] = _typical[at] - estimate.Rate.Low.LitersPerHour;
                    _warm[at] = At(request, w with { AirTempC = Math.Min(w.AirTempC + WarmerK, 60) }, metabolic, work, absorbed, airMps).Rate.Typical.LitersPerHour;
                    if (sky.GlobalWPerM2 > 0)
                    {
                        _cloud[at] = (At(request, w, metabolic, work, absorbedOther, airMps).Rate.Typical.LitersPerHour - _typical[at]) / (other - cloud);
                    }

                    if (withShade)
                    {
                        _shade[at] = sky.GlobalWPerM2 > 0 ? At(request, w, metabolic, work, absorbedShade, airMps).Rate.Typical.LitersPerHour : _typical[at];
                    }
                }
            }
        }

        findings.AddRange(seen.Values);
    }

    /// <summary>Mechanical power that leaves the body at a metabolic power: a fifth of what exceeds standing, about the efficiency of pedalling over that base.</summary>
    [Source("moseley-jeukendrup-2001", "gross efficiency about 0.2")]
    public static double WorkW(double metabolicW) => Math.Max(0, WorkShare * (metabolicW - StandingW));

    private const double WorkShare = 0.2;
    private const double StandingW = 110;

    public int Columns { get; }

    public double[] WbgtC { get; }

    public HeatCategory[] Category { get; }

    /// <summary>Cloud as forecast [share of 1] at each column.</summary>
    public double[] CloudFraction { get; }

    /// <summary>Air, radiation and wind at the rider at a clock and height.</summary>
    public HeatAir AirAt(double clockSec, double heightM)
    {
        double x = Math.Clamp(clockSec / 3600, 0, Columns - 1);
        int g = Math.Min((int)x, Math.Max(0, Columns - 2));
        double y = HeightNode(heightM);
        int e = _heights == 1 ? 0 : Math.Min((int)y, _heights - 2);
        HeatAir now = Row(g), next = Columns == 1 ? now : Row(g + 1);
        return HeatAir.Between(now, next, x - g);

        HeatAir Row(int column)
        {
            HeatAir low = _air[(column * _heights) + e];
            return _heights == 1 ? low : HeatAir.Between(low, _air[(column * _heights) + e + 1], y - e);
        }
    }

    private double HeightNode(double heightM) => _heights == 1 || double.IsNaN(heightM) ? 0 : Math.Clamp((heightM - _lowM) / _stepM, 0, _heights - 1);

    /// <summary>Sweat in sun and open air [L/h], the same in air warmer by <see cref="WarmerK"/>, its change for a whole sky of cloud more, in the shade of terrain, and how far P90 and P10 lie from the first.</summary>
    public (double Typical, double Warm, double Cloud, double Shade, double Above, double Below) At(int column, double heightM, double metabolicW)
    {
        double y = HeightNode(heightM);
        double x = Math.Clamp((metabolicW - _lowW) / _stepW, 0, PowerNodes - 1);
        int y0 = Math.Min((int)y, Math.Max(0, _heights - 2)), x0 = Math.Min((int)x, PowerNodes - 2);
        double fy = _heights == 1 ? 0 : y - y0, fx = x - x0;
        return (Blend(_typical), Blend(_warm), Blend(_cloud), ReferenceEquals(_shade, _typical) ? double.NaN : Blend(_shade), Blend(_above), Blend(_below));

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

    /// <summary>Air over the body: the wind, or a share of the mean speed on calm days [m/s].</summary>
    public static double AirMps(double windMps, double meanMps) => Math.Clamp(Math.Max(windMps, AirShareOfSpeed * meanMps), 0.2, 30);

    private static SunOnRider Sun(SolarPosition sun, Weather w, ClearSkyIrradiance sky, double cloud, double directFraction) => SunOnRider.At(new SunInput
    {
        SunAltitudeDeg = sun.AltitudeDeg,
        AirTemperature = Temperature.FromDegreesCelsius(Math.Clamp(w.AirTempC, -60, 60)),
        RelHumidityPct = Math.Clamp(w.RelHumidityPct, 0, 100),
        CloudPct = 100 * cloud,
        GlobalIrradiance = sky.Global,
        DiffuseIrradiance = sky.Diffuse,
        DirectSunFraction = directFraction,
    });

    private static SweatEstimate At(RideRequest request, Weather w, double metabolicW, double workW, double absorbed, double airMps)
        => SweatRateEstimator.Estimate(
            new SweatConditions
            {
                Rider = request.Rider,
                Weather = w with { AirTempC = Math.Clamp(w.AirTempC, -40, 60), RelHumidityPct = Math.Clamp(w.RelHumidityPct, 0, 100) },
                MetabolicRate = Power.FromWatts(metabolicW),
                WorkPower = Power.FromWatts(workW),
                SolarLoadWPerM2 = Math.Clamp(absorbed, 0, 400),
                AirSpeed = Speed.FromMetersPerSecond(airMps),
                ClothingClo = request.Options.ClothingClo,
            },
            request.Sweat);
}
