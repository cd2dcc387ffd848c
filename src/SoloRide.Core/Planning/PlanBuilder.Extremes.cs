using SoloRide.Internal;

namespace SoloRide.Planning;

/// <content>Weather and height that the numbers of a plan do not judge, told with place and time.</content>
internal sealed partial class PlanBuilder
{
    [Source("wmo-beaufort", "force 8, gale: from 17.2 m/s at 10 m above open ground")]
    private const double GaleMps = 17.2;

    [Source("assumption-height-warnings", "above it an unacclimatised body may fall ill")]
    private const double HighM = 3000;

    [Source("assumption-height-warnings", "above it the warning stands for the acclimatised too")]
    private const double VeryHighM = 4000;

    [Source("ams-rain", "heavy: above 0.30 inch in an hour")]
    private const double HeavyRainMm = 7.6;

    [Source("assumption-winter-clothing")]
    private const double WinterClo = 1;

    /// <summary>Worst value of a kind on the ride, and where it first passes the level.</summary>
    private struct Passed
    {
        public bool Any;
        public double FirstM, FirstSec, Worst;

        public void See(bool passes, double value, double alongM, double sec, bool more)
        {
            if (!passes)
            {
                return;
            }

            if (!Any)
            {
                Any = true;
                FirstM = alongM;
                FirstSec = sec;
                Worst = value;
            }

            Worst = more ? Math.Max(Worst, value) : Math.Min(Worst, value);
        }
    }

    private void Extremes()
    {
        HighGround();
        if (_request.Weather is not { } forecast)
        {
            return;
        }

        // Wind and gusts as forecast for open ground; the shelter of the ground is taken off for pace, not for a warning.
        double shelter = forecast.Options.WindShelterFactor;
        double late = _middle.FinishSec[0] > 0 ? Math.Max(1, _spread.Quantile(_course.Stations.Count - 2, 0.95) / _middle.FinishSec[0]) : 1;
        Passed wind = default, frost = default, rain = default;
        foreach ((double from, double to, double m) in Stretches())
        {
            foreach (double sec in (ReadOnlySpan<double>)[(from + to) / 2, late * (from + to) / 2])
            {
                Weather w = _model.Weather.Known(_request.Start.AddSeconds(sec), _course.PlaceAt(m));
                double open = shelter > 0 ? Math.Max(Or0(w.WindMps), Or0(w.GustMps)) / shelter : 0;
                wind.See(open >= GaleMps, open, m, sec, true);
                frost.See(w.AirTempC < 0, w.AirTempC, m, sec, false);
                rain.See(w.PrecipMm > HeavyRainMm, w.PrecipMm, m, sec, true);
            }
        }

        if (wind.Any)
        {
            Warn(PlanningFindingCodes.Gale, "Wind", $"Gale: wind or gusts up to {Text.F(wind.Worst, 0)} m/s in the open, first {Place(wind)}. It can throw rider and bike on ridges and crossings and bring down trees; pace and verdict do not count that. Keep low, or choose another day.", wind, "wind_mps", 1);
        }

        if (frost.Any)
        {
            string clothing = _request.Options.ClothingClo < WinterClo ? $" The ride is computed in clothing of {Text.F(_request.Options.ClothingClo, 1)} clo, which is not winter clothing: state what is worn." : "";
            Warn(PlanningFindingCodes.Frost, "Frost", $"Air below freezing, down to {Text.F(frost.Worst, 0)} C, first {Place(frost)}: bottles, hoses and sources freeze, a wet filter that has frozen is not to be trusted, hands and feet go numb. Carry water inside the clothing, and dry gloves.{clothing}", frost, "coldest_c", 1);
        }

        if (rain.Any)
        {
            Warn(PlanningFindingCodes.HeavyRain, "Rain", $"Heavy rain, up to {Text.F(rain.Worst, 0)} mm in an hour, first {Place(rain)}: ground gets slick, fords rise, drains flood. The pace of the plan does not count it.", rain, "rain_mm", 1);
        }

        string Place(Passed p) => $"at km {Text.F(p.FirstM / 1000, 1)} ({PlanText.ClockOn(At(p.FirstSec), _zone.ToLocal(_request.Start))})";
        static double Or0(double v) => double.IsNaN(v) ? 0 : v;
    }

    private void HighGround()
    {
        int top = Top();
        double m = PlaceOf(top).ElevationM;
        foreach ((double from, double to, double along) in Stretches())
        {
            double here = _course.PlaceAt(along).ElevationM;
            if (here <= HighM)
            {
                continue;
            }

            bool used = _request.Rider.AltitudeAcclimatised == Known.Yes;
            if (used && m <= VeryHighM)
            {
                return;
            }

            var passed = new Passed { Any = true, FirstM = along, FirstSec = (from + to) / 2, Worst = m };
            string who = used ? "Even the acclimatised may fall ill there" : _request.Rider.AltitudeAcclimatised == Known.No ? "Who is not acclimatised may fall ill there" : "Whether the rider is acclimatised is not said; who is not may fall ill there";
            Warn(
                PlanningFindingCodes.HighGround, "Height",
                $"Above {Text.Thousands(HighM)} m from km {Text.F(along / 1000, 1)} ({PlanText.ClockOn(At(passed.FirstSec), _zone.ToLocal(_request.Start))}) on, up to {Text.Thousands(Math.Round(m / 10) * 10)} m. {who}: with headache and sickness go no higher, with confusion, unsteadiness or breathlessness at rest go down at once.", passed, "highest_m", 0);
            return;
        }
    }

    private void Warn(string code, string subject, string message, Passed p, string value, int decimals)
        => _findings.Add(new Finding(code, FindingSeverity.Warning, subject, message, new FindingValue(value, Text.F(p.Worst, decimals)), new FindingValue("from_m", Text.F(p.FirstM, 0))));
}
