using SoloRide.Exposure;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Cold and wet along a ride: what happens to a rider who has to stop in what is worn.</summary>
/// <remarks>
/// Each station at its typical arrival: air and wind of the forecast, clothing dry, damp or wet by the rain since the start, standing at 70 W/m²;
/// the time is that of the required insulation of the cold standard. Use it to rank stations and days, not as a promise. Immutable.
/// </remarks>
[Entry(NoOutsideCheck = "limits are checked in exposure; here they are taken along a ride and ranked")]
public sealed record ColdWetExposure
{
    [Source("assumption-cold-wet", "rain since the start from which clothing counts as damp and as wet [mm]")]
    private const double DampMm = 0.2, WetMm = 1;

    [Source("assumption-cold-wet", "heat made standing [W/m2]")]
    private const double StandingWPerM2 = 70;

    [Source("assumption-cold-wet", "bounds of the classes [h]")]
    private const double SlightFromH = 8, RaisedFromH = 2, HighFromH = 0.5;

    /// <summary>Above it standing still is no matter of cold [°C].</summary>
    private const double WarmC = 18;

    private ColdWetExposure(ColdWetPoint[] points) => Points = points;

    /// <summary>Stations whose weather is forecast, in order.</summary>
    public IReadOnlyList<ColdWetPoint> Points { get; }

    /// <summary>The worst station; null when none is forecast.</summary>
    public ColdWetPoint? Worst => Points.OrderByDescending(p => p.Class).ThenBy(p => p.StandingLimit ?? TimeSpan.MaxValue).FirstOrDefault();

    /// <summary>The worst station in words.</summary>
    public string Words => Worst is not { } w
        ? "Cold and wet are not judged: no forecast covers the ride."
        : w.StandingLimit is { } t
            ? $"At {w.Name} standing still in what is worn can be borne {Text.Span(t)} ({Text.F(w.AirTemperature.DegreesCelsius, 0)} C, wind {Text.F(w.Wind.MetersPerSecond, 0)} m/s, {w.Wetness.ToString().ToLowerInvariant()}): keep a dry layer, and do not stop on open ground."
            : "Standing still in what is worn is no matter of cold on this ride.";

    /// <summary>Cold and wet at the stations of a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="forecast">The forecast that it was made from.</param>
    /// <param name="worn">What is worn while riding.</param>
    /// <returns>The exposure; stations beyond the forecast are left out.</returns>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    public static ColdWetExposure Of(RidePlan plan, Forecast forecast, IReadOnlyList<Garment> worn)
    {
        Guard.NotNull(plan);
        Guard.NotNull(forecast);
        Guard.NotNull(worn);
        var points = new List<ColdWetPoint>();
        double rain = 0;
        bool known = true;
        DateTimeOffset last = plan.Start;
        foreach (PlanStation s in plan.Stations)
        {
            for (; last < s.Arrival.Typical; last = last.AddMinutes(15))
            {
                double mm = forecast.At(last, s.Place).Weather.PrecipMm;
                known &= !double.IsNaN(mm);
                rain += double.IsNaN(mm) ? 0 : mm / 4;
            }

            WeatherAtRider at = forecast.At(s.Arrival.Typical, s.Place);
            if (!at.Covered || double.IsNaN(at.Weather.AirTempC) || double.IsNaN(at.Weather.WindMps))
            {
                continue;
            }

            Wetness wet = rain >= WetMm ? Wetness.Wet : rain >= DampMm || !known ? Wetness.Damp : Wetness.Dry;
            TimeSpan? limit = at.Weather.AirTempC > WarmC
                ? null
                : RequiredInsulation.For(
                    new ColdConditions
                    {
                        AirTemperature = Temperature.FromDegreesCelsius(Math.Max(-60, at.Weather.AirTempC)),
                        AirSpeed = Speed.FromMetersPerSecond(Math.Clamp(at.Weather.WindMps, 0, 30)),
                        MetabolicRate = HeatFlux.FromWattsPerSquareMeter(StandingWPerM2),
                        RelHumidityPct = double.IsNaN(at.Weather.RelHumidityPct) ? 80 : Math.Clamp(at.Weather.RelHumidityPct, 0, 100),
                    },
                    new Outfit(worn, wet)).LimitNeutral;
            points.Add(new ColdWetPoint(s.Name == "-" ? $"km {Text.F(s.AlongRoute.Kilometers, 1)}" : s.Name, s.AlongRoute, Temperature.FromDegreesCelsius(at.Weather.AirTempC), Speed.FromMetersPerSecond(at.Weather.WindMps), wet, limit, ClassOf(limit)));
        }

        return new ColdWetExposure([.. points]);
    }

    private static ColdWetClass ClassOf(TimeSpan? limit) => limit switch
    {
        null => ColdWetClass.Slight,
        { TotalHours: >= SlightFromH } => ColdWetClass.Slight,
        { TotalHours: >= RaisedFromH } => ColdWetClass.Raised,
        { TotalHours: >= HighFromH } => ColdWetClass.High,
        _ => ColdWetClass.Severe,
    };
}
