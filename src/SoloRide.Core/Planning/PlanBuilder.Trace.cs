using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>Courses of the typical run, for pictures and own studies.</content>
internal sealed partial class PlanBuilder
{
    private PlanTracePoint[] Trace(WalkOutProfile? walk)
    {
        int n = _trace.ClockSec.Length;
        double massKg = RideModel.BodyKg(_request.Rider);
        double[]? rectal = _model.Weather.HasForecast ? _core : null;
        var points = new PlanTracePoint[n + 1];
        points[0] = Point(0, _course.Places[0], 0, _water.StartL, 0, 0, 0, rectal is null ? double.NaN : HeatStrainState.Start.RectalC, walk);
        for (int j = 0; j < n; j++)
        {
            double m = _model.SectionEndM(j);
            double clock = _trace.ClockSec[j];
            double body = rectal is null ? double.NaN : rectal[j];
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
