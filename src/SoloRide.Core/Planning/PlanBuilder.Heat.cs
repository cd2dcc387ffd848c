using SoloRide.Daylight;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>Sun on the rider, shade of terrain, ice, and the core temperature along the ride.</content>
internal sealed partial class PlanBuilder
{
    private const int MostHeatSamples = 128, SamplesPerHeatSample = 8;

    [Source("assumption-ice", "air at or below which ground in the shade may be frozen")]
    private const double ShadeIceC = 3;

    [Source("ioannou-2019", "root mean square of predicted against measured core temperature")]
    private const double CoreRmsC = 0.3;

    private double[] _core = [];

    private SimulationInput WithLamp(SimulationInput input)
    {
        (double low, double typical) = Lamp();
        return input with { LampSec = typical, LampSigma = low > 0 ? Math.Log(typical / low) / NormalKernel.Z90 : 0 };
    }

    /// <summary>
    /// Predicted heat strain along the typical run, and along the first 128 samples (an eighth of them when there are fewer than 1 024): minute by minute in every sample would cost more than all the rest,
    /// and the first 2^k points of the sequence are spread evenly.
    /// </summary>
    private PlanHeat Heat()
    {
        var along = new HeatAlong(_model);
        _core = new double[_trace.ClockSec.Length];
        along.Run(_trace, 0, _core, out double highest, out double atSec, out double limitSec);
        int n = (int)Math.Min(MostHeatSamples, System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(_spread.Samples / SamplesPerHeatSample)));
        double low = highest - (NormalKernel.Z90 * CoreRmsC), high = highest + (NormalKernel.Z90 * CoreRmsC), share = double.NaN;
        if (n > 0)
        {
            var all = new double[n];
            int k = 0, over = 0;
            SimulationKernel.Courses(_spread.Input, n, _request.Options.Seed, (course, warmer) =>
            {
                along.Run(course, warmer, [], out double own, out _, out double limit);
                all[k++] = own;
                over += double.IsNaN(limit) ? 0 : 1;
            }, _cancel);
            Array.Sort(all);

            // What the samples draw, and the model's own error in the field, as independent.
            double up = QuantileKernel.OfSorted(all, 0.9) - highest, down = highest - QuantileKernel.OfSorted(all, 0.1), own = NormalKernel.Z90 * CoreRmsC;
            high = highest + Math.Sqrt((Math.Max(0, up) * Math.Max(0, up)) + (own * own));
            low = highest - Math.Sqrt((Math.Max(0, down) * Math.Max(0, down)) + (own * own));
            share = (double)over / n;
        }

        double atM = _model.SectionEndM(SectionAtClock(atSec));
        if (_model.Weather.HasForecast && highest > HeatAlong.BearableC)
        {
            int past = Array.FindIndex(_core, c => c > HeatAlong.BearableC);
            string from = past < 0 ? "" : $" from km {Text.F(_model.SectionEndM(past) / 1000, 1)} ({PlanText.ClockOn(At(_trace.ClockSec[past]), _zone.ToLocal(_request.Start))}) on";
            _findings.Add(new Finding(
                PlanningFindingCodes.CoreHeat, FindingSeverity.Warning, "Heat",
                $"Predicted body temperature is past any bearable value{from}: above {Text.F(HeatAlong.BearableC, 0)} C is heat stroke, an emergency. No figure is told. Choose another day, hour or ride.",
                new FindingValue("past_bearable", "true"), new FindingValue("limit_probability", double.IsNaN(share) ? "" : Text.F(share, 3))));
        }
        else if (_model.Weather.HasForecast && (!double.IsNaN(limitSec) || share > 1 - _level))
        {
            string when = double.IsNaN(limitSec) ? "not at the typical pace" : $"at {Text.Clock(At(limitSec))} (km {Text.F(_model.SectionEndM(SectionAtClock(limitSec)) / 1000, 0)})";
            string chance = double.IsNaN(share) ? "" : $", in {Text.F(share * 100, 0)} of 100 such rides";
            _findings.Add(new Finding(
                PlanningFindingCodes.CoreHeat, FindingSeverity.Caution, "Heat",
                $"Predicted rectal temperature reaches 38 C, the standard's limit for work, {when}{chance}; highest {Text.F(highest, 1)} C. Hard riding often passes it in cool air too; in heat slow down, seek shade, wet the skin.",
                new FindingValue("highest_c", Text.F(highest, 2)), new FindingValue("limit_probability", double.IsNaN(share) ? "" : Text.F(share, 3))));
        }

        return new PlanHeat
        {
            HighestCore = Estimate.Of(Temperature.FromDegreesCelsius(highest), Temperature.FromDegreesCelsius(low), Temperature.FromDegreesCelsius(high)),
            HighestAt = Length.FromMeters(atM),
            HighestTime = At(atSec),
            LimitReached = double.IsNaN(limitSec) ? null : At(limitSec),
            LimitProbability = share,
            Samples = n,
        };
    }

    private Estimate<Temperature>? CoreAt(int station)
    {
        double c = station == 0 ? Exposure.HeatStrainState.Start.RectalC : _core[SectionAt(_course.EndM[_course.StepOfStation[station]])];
        double d = station == 0 ? 0 : NormalKernel.Z90 * CoreRmsC;
        return Estimate.Of(Temperature.FromDegreesCelsius(c), Temperature.FromDegreesCelsius(c - d), Temperature.FromDegreesCelsius(c + d));
    }

    private int SectionAtClock(double sec)
    {
        int j = Array.BinarySearch(_trace.ClockSec, sec);
        return j >= 0 ? j : Math.Min(~j, _trace.ClockSec.Length - 1);
    }

    private double StationSec(int station) => station == 0 ? 0 : _middle.ArrivalSec[station - 1];

    private bool? InSun(int station)
    {
        double m = _course.Stations[station].AlongM;
        return _model.Sun is { } sun && sun.Knows(m) ? sun.At(m, At(StationSec(station))).InSun : null;
    }

    private DateTimeOffset? LastSun(int station)
        => _model.Sun is { } sun && sun.Knows(_course.Stations[station].AlongM)
            ? sun.LastSun(station, DateOnly.FromDateTime(At(StationSec(station)).DateTime), _zone)
            : null;

    private Irradiance? SunAbsorbed(int station)
    {
        HeatAir air = _model.Sweat.AirAt(StationSec(station), PlaceOf(station).ElevationM);
        return Irradiance.FromWattsPerSquareMeter(InSun(station) == false ? air.AbsorbedShadeWPerM2 : air.AbsorbedSunWPerM2);
    }

    /// <summary>Sun and shade along the typical run; null when no skyline is known.</summary>
    private PlanSun? SunOfRide()
    {
        if (_model.Sun is not { } sun)
        {
            return null;
        }

        double direct = 0, shade = 0, unknown = 0;
        DateTimeOffset? last = null;
        bool toTheEnd = false;
        foreach ((double from, double to, double m) in Stretches())
        {
            if (!sun.Knows(m))
            {
                unknown += to - from;
                toTheEnd = false;
                continue;
            }

            (bool inSun, bool up) = sun.At(m, At((from + to) / 2));
            direct += inSun ? to - from : 0;
            shade += up && !inSun ? to - from : 0;
            last = inSun ? At(to) : last;
            toTheEnd = inSun;
        }

        // Who finishes in the sun has not seen the last of it: it goes when it leaves the finish, as that station says.
        last = toTheEnd && LastSun(_course.Stations.Count - 1) is { } atFinish && atFinish > last ? atFinish : last;

        return new PlanSun
        {
            DirectSun = TimeSpan.FromSeconds(direct),
            TerrainShade = TimeSpan.FromSeconds(shade),
            SkylineUnknown = TimeSpan.FromSeconds(unknown),
            LastSun = last,
            SunToTheEnd = toTheEnd,
        };
    }

    private IEnumerable<(double FromSec, double ToSec, double AlongM)> Stretches()
    {
        double from = 0;
        for (int j = 0; j < _trace.ClockSec.Length; j++)
        {
            yield return (from, _trace.ClockSec[j], _model.SectionMiddleM(j));
            from = _trace.ClockSec[j];
        }
    }

    /// <summary>Where the ground may be frozen: air at or below 0 C, or at or below 3 C in the shade of terrain.</summary>
    private void Ice()
    {
        if (!_model.Weather.HasForecast)
        {
            return;
        }

        double firstM = double.NaN, coldest = double.PositiveInfinity, lengthM = 0, before = 0;
        bool shade = false;
        int j = 0;
        foreach ((double from, double to, double m) in Stretches())
        {
            double end = _model.SectionEndM(j), airC = _model.Sweat.AirAt((from + to) / 2, _model.SectionHeightM(j)).AirC;
            bool shaded = airC is > 0 and <= ShadeIceC && _model.Sun is { } sun && sun.Knows(m) && sun.At(m, At((from + to) / 2)) is { InSun: false, Up: true };
            if (airC <= 0 || shaded)
            {
                firstM = double.IsNaN(firstM) ? before : firstM;
                coldest = Math.Min(coldest, airC);
                lengthM += end - before;
                shade |= shaded;
            }

            before = end;
            j++;
        }

        if (!double.IsNaN(firstM))
        {
            _findings.Add(new Finding(
                PlanningFindingCodes.Ice, FindingSeverity.Caution, "ground",
                $"Wet ground may be frozen on {Text.F(lengthM / 1000, 1)} km, first at km {Text.F(firstM / 1000, 1)}: air down to {Text.F(coldest, 1)} C{(shade ? ", and shade of terrain" : "")}.",
                new FindingValue("length_m", Text.F(lengthM, 0)), new FindingValue("from_m", Text.F(firstM, 0)), new FindingValue("coldest_c", Text.F(coldest, 1))));
        }
    }
}
