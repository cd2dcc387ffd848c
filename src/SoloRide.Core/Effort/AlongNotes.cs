using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Gathers what a chain of steps has to say, each kind once.</summary>
internal sealed class AlongNotes
{
    private readonly SortedDictionary<string, (Finding First, int Count)> _steps = new(StringComparer.Ordinal);
    private int _noHeight, _noAir, _noWind, _noSurface, _count;
    private double _highestM = double.NegativeInfinity, _hottestC = double.NegativeInfinity, _longestH;
    private bool _empty;

    public void See(StepPace p, StepConditions c, TimeSpan movingBefore, bool batteryEmpty)
    {
        _count++;
        _longestH = Math.Max(_longestH, movingBefore.TotalHours);
        _empty |= batteryEmpty;
        _noHeight += double.IsNaN(p.Step.ElevationM) ? 1 : 0;
        _noAir += double.IsNaN(c.Weather.AirTempC) ? 1 : 0;
        _noWind += double.IsNaN(c.Weather.WindMps) || double.IsNaN(c.Weather.WindFromDeg) || double.IsNaN(p.Step.BearingDeg) ? 1 : 0;
        _noSurface += p.Step.Surface == TrailSurface.Unknown ? 1 : 0;
        _highestM = Math.Max(_highestM, double.IsNaN(p.Step.ElevationM) ? double.NegativeInfinity : p.Step.ElevationM);
        _hottestC = Math.Max(_hottestC, double.IsNaN(c.Weather.AirTempC) ? double.NegativeInfinity : c.Weather.AirTempC);
        if (p.Finding is { } f)
        {
            _steps[f.Code] = _steps.TryGetValue(f.Code, out var old) ? (old.First, old.Count + 1) : (f, 1);
        }
    }

    public IEnumerable<Finding> Findings()
    {
        if (_noHeight > 0)
        {
            yield return Note(EffortFindingCodes.NoHeights, FindingSeverity.Caution, $"{_noHeight} of {_count} steps have no height: sea-level air and no loss of power are taken there.", _noHeight);
        }

        if (_noAir > 0 || _noWind > 0)
        {
            yield return Note(EffortFindingCodes.NoWeather, FindingSeverity.Note, $"Air temperature is unknown on {_noAir} and wind or heading on {_noWind} of {_count} steps: the standard atmosphere and still air are taken there.", Math.Max(_noAir, _noWind));
        }

        if (_noSurface > 0)
        {
            yield return Note(EffortFindingCodes.SurfaceUnknown, FindingSeverity.Note, $"{_noSurface} of {_count} steps name no surface: a mix of firm and loose trail is taken.", _noSurface);
        }

        if (_highestM > AltitudeFromM)
        {
            FindingSeverity severity = _highestM > AltitudeKernel.HighestFittedM ? FindingSeverity.Caution : FindingSeverity.Note;
            yield return new Finding(EffortFindingCodes.Altitude, severity, "altitude",
                string.Create(CultureInfo.InvariantCulture, $"Power falls with height by a fit to group means (up to {_highestM:F0} m here; data to 6 000 m); one person differs by about 5 points at 3 000 m."),
                new FindingValue("highest_m", Text.F(_highestM, 0)));
        }

        if (_hottestC > PaceModel.HeatFromC)
        {
            yield return new Finding(EffortFindingCodes.Heat, FindingSeverity.Caution, "heat",
                string.Create(CultureInfo.InvariantCulture, $"Power falls with heat by an assumed share for each degree above 23 C (up to {_hottestC:F0} C here)."),
                new FindingValue("hottest_c", Text.F(_hottestC, 0)));
        }

        if (_longestH > LongestFittedH)
        {
            yield return new Finding(EffortFindingCodes.LongRide, FindingSeverity.Caution, "fatigue",
                string.Create(CultureInfo.InvariantCulture, $"The loss of power over hours was seen in rides of up to 27 h in motion ({_longestH:F0} h here); lack of sleep is not in it."),
                new FindingValue("hours", Text.F(_longestH, 0)));
        }

        if (_empty)
        {
            yield return new Finding(EffortFindingCodes.AssistEmpty, FindingSeverity.Warning, "bike", "The drive battery is empty before the end; the rest is ridden without help.");
        }

        foreach ((Finding first, int count) in _steps.Values)
        {
            yield return new Finding(first.Code, first.Severity, first.Subject, $"{first.Message} ({count.ToString(CultureInfo.InvariantCulture)} of {_count.ToString(CultureInfo.InvariantCulture)} steps.)", [.. first.Values]);
        }
    }

    private const double AltitudeFromM = 1000;

    [Source("neumayr-2004", "27 hours")]
    private const double LongestFittedH = 27;

    private static Finding Note(string code, FindingSeverity severity, FormattableString message, int steps)
        => new(code, severity, "steps", message.ToString(CultureInfo.InvariantCulture), new FindingValue("steps", steps.ToString(CultureInfo.InvariantCulture)));
}
