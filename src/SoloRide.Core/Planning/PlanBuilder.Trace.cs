using SoloRide.Daylight;
using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>Courses of the typical run, for pictures and own studies.</content>
internal sealed partial class PlanBuilder
{
    // The heat model counts whole minutes; stretches shorter than this are joined.
    private const double HeatBinSec = 300;

    private PlanTracePoint[] Trace(WalkOutProfile? walk)
    {
        int n = _trace.ClockSec.Length;
        double massKg = _request.Rider.Mass?.Kilograms ?? 75;
        double[]? rectal = _model.Weather.HasForecast ? Rectal(massKg) : null;
        var points = new PlanTracePoint[n + 1];
        points[0] = Point(0, _course.Places[0], 0, _water.StartL, 0, 0, 0, rectal is null ? double.NaN : HeatStrainState.Start.RectalC, walk);
        for (int j = 0; j < n; j++)
        {
            double m = _model.SectionEndM(j);
            double clock = _trace.ClockSec[j];
            double body = rectal is null ? double.NaN : rectal[Math.Clamp((int)Math.Round(clock / 60) - 1, 0, rectal.Length - 1)];
            points[j + 1] = Point(m, _course.Places[_course.StepEndingAt(m) + 1], clock, _trace.WaterL[j], _trace.SweatL[j], _trace.DrunkL[j], _trace.Joules[j], body, walk);
        }

        return points;

        PlanTracePoint Point(double m, GeoPoint place, double clock, double water, double sweat, double drunk, double joules, double rectalC, WalkOutProfile? profile)
        {
            WalkOutPoint? way = profile?.At(OnWhole(profile, m));
            return new PlanTracePoint
            {
                AlongRoute = Length.FromMeters(m),
                Place = place,
                At = At(clock),
                WaterInHand = Volume.FromLiters(water),
                Sweat = Volume.FromLiters(sweat),
                Drunk = Volume.FromLiters(drunk),
                EnergyUsed = Energy.FromJoules(joules),
                BodyWaterLossFraction = Math.Max(0, sweat - drunk) / massKg,
                RectalTemperature = double.IsNaN(rectalC) ? null : Temperature.FromDegreesCelsius(rectalC),
                WayOut = way?.Time,
                WayOutTo = PlaceName(way?.Exit ?? ""),
            };
        }
    }

    /// <summary>Rectal temperature at the end of each minute of the typical run.</summary>
    private double[] Rectal(double massKg)
    {
        Rider rider = _request.Rider with { Mass = Mass.FromKilograms(massKg), Height = _request.Rider.Height ?? Length.FromCentimeters(178) };
        double area = HeatStrain.BodyArea(rider.Mass!.Value, rider.Height!.Value).SquareMeters;
        double meanMps = _course.TotalM / Math.Max(1, _middle.FinishSec[0]);
        var steps = new List<HeatStep>();
        double from = 0, joulesFrom = 0;
        for (int j = 0; j < _trace.ClockSec.Length; j++)
        {
            bool last = j == _trace.ClockSec.Length - 1;
            double to = _trace.ClockSec[j];
            if (to - from < HeatBinSec && !last)
            {
                continue;
            }

            if (to - from >= 1)
            {
                double metabolic = (_trace.Joules[j] - joulesFrom) / (to - from);
                steps.Add(Step(from, to, _course.Places[_course.StepEndingAt(_model.SectionEndM(j)) + 1], metabolic));
                from = to;
                joulesFrom = _trace.Joules[j];
            }
        }

        if (steps.Count == 0 || from < 30)
        {
            return [HeatStrainState.Start.RectalC];
        }

        return [.. HeatStrain.Over(rider, steps).Minutes.Select(m => m.State.RectalC)];

        HeatStep Step(double begin, double end, GeoPoint place, double metabolicW)
        {
            DateTimeOffset t = _request.Start.AddSeconds((begin + end) / 2);
            Weather w = _model.Weather.Filled(t, place);
            double air = Math.Clamp(w.AirTempC, -40, 60), humidity = Math.Clamp(w.RelHumidityPct, 0, 100);
            SolarPosition sun = SolarPosition.At(t, place);
            ClearSkyIrradiance sky = ClearSkyIrradiance.Of(sun, place, Math.Clamp(w.CloudPct / 100, 0, 1));
            double radiant = air;
            if (sky.GlobalWPerM2 > 0)
            {
                radiant = SunOnRider.At(new SunInput
                {
                    SunAltitudeDeg = sun.AltitudeDeg,
                    AirTemperature = Temperature.FromDegreesCelsius(air),
                    RelHumidityPct = humidity,
                    CloudPct = Math.Clamp(w.CloudPct, 0, 100),
                    GlobalIrradiance = sky.Global,
                    DiffuseIrradiance = sky.Diffuse,
                }).MeanRadiantTemperature.DegreesCelsius;
            }

            double work = SweatTable.WorkW(metabolicW);
            return new HeatStep
            {
                Duration = TimeSpan.FromSeconds(end - begin),
                AirTemperature = Temperature.FromDegreesCelsius(air),
                MeanRadiantTemperature = Temperature.FromDegreesCelsius(Math.Clamp(radiant, -60, 130)),
                RelHumidityPct = humidity,
                AirSpeed = Speed.FromMetersPerSecond(SweatTable.AirMps(w.WindMps, meanMps)),
                MetabolicRate = HeatFlux.FromWattsPerSquareMeter(Math.Clamp(metabolicW / area, 30, 900)),
                ExternalWork = HeatFlux.FromWattsPerSquareMeter(Math.Clamp(work / area, 0, 300)),
                ClothingClo = _request.Options.ClothingClo,
            };
        }
    }

    private PlanHour[] Hours()
    {
        if (!_model.Weather.HasForecast)
        {
            return [];
        }

        GeoPoint top = PlaceOf(Top());
        return
        [
            .. Enumerable.Range(0, _model.Sweat.Columns).Select(g => new PlanHour(
                At(g * 3600.0), Temperature.FromDegreesCelsius(_model.Sweat.WbgtC[g]), _model.Sweat.Category[g],
                _model.Weather.Known(_request.Start.AddHours(g), top).ThunderPct / 100)),
        ];
    }
}
