using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>
/// The rule for alternates, transferred from aviation: unless the forecast is good from one hour before to one hour after the planned
/// arrival, an alternate exit must be named that can be reached with the reserve. And the fixed time reserve by day and night.
/// </summary>
/// <remarks>Sources: <c>14-cfr-91-167</c>, <c>14-cfr-91-151</c>. They are rules for aircraft; no rule for riders was found.</remarks>
[Entry]
public static class AlternateExit
{
    /// <summary>Whether an alternate is required, and which exit can be it.</summary>
    /// <param name="plannedArrival">Planned arrival at the exit.</param>
    /// <param name="forecast">Judged periods; what they leave uncovered is not known, and so not good.</param>
    /// <param name="plannedExit">Name of the planned exit.</param>
    /// <param name="ranking">The ways out from the place of decision; null when no alternate is looked for.</param>
    /// <returns>The need.</returns>
    /// <exception cref="ArgumentException">No name.</exception>
    public static AlternateNeed Check(DateTimeOffset plannedArrival, IReadOnlyList<ForecastJudgement> forecast, string plannedExit, BailOutRanking? ranking = null)
    {
        Guard.NotNull(forecast);
        Guard.NotEmpty(plannedExit);
        DateTimeOffset from = plannedArrival.AddHours(-EscapeConstants.AlternateHours), to = plannedArrival.AddHours(EscapeConstants.AlternateHours);
        string window = $"from {Text.Clock(from)} to {Text.Clock(to)}";
        ForecastJudgement? bad = forecast.Where(f => f.Good != Known.Yes && f.From < to && f.To > from).OrderBy(f => f.From).FirstOrDefault();
        DateTimeOffset covered = from;
        foreach (ForecastJudgement f in forecast.Where(f => f.Good == Known.Yes).OrderBy(f => f.From))
        {
            covered = f.From <= covered && f.To > covered ? f.To : covered;
        }

        bool required = bad is not null || covered < to;
        string reason = bad is not null
            ? $"the forecast is {(bad.Good == Known.No ? "not good" : "not known")} {window}"
            : covered < to ? $"no forecast covers all of the time {window}" : $"the forecast is good {window}";
        var findings = new List<Finding>
        {
            new(EscapeFindingCodes.AlternateTransferred, FindingSeverity.Note, plannedExit, "The rule for alternates is transferred from aviation; no rule for riders was found."),
        };
        BailOutOption? alternate = ranking?.Options.FirstOrDefault(o => o.Suffices && o.Exit.Name != plannedExit);
        if (required && ranking is not null && alternate is null)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.ResourceShort, FindingSeverity.Warning, plannedExit, $"An alternate to '{plannedExit}' is required and none can be reached with the reserve."));
        }

        return new AlternateNeed(required, reason, alternate, findings);
    }

    /// <summary>The time to be left on reaching the exit: 30 min by day, 45 min by night, or 10 % of what remains if that is more.</summary>
    /// <param name="remaining">Time that remains to the exit; zero or more.</param>
    /// <param name="light">By what light the exit is reached.</param>
    /// <returns>The reserve.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative time.</exception>
    public static TimeSpan TimeReserve(TimeSpan remaining, TravelLight light)
    {
        double minutes = Guard.Defined(light) == TravelLight.Day ? EscapeConstants.ReserveDayMinutes : EscapeConstants.ReserveNightMinutes;
        return TimeSpan.FromMinutes(Math.Max(minutes, EscapeConstants.ReserveShare * Guard.NotNegative(remaining).TotalMinutes));
    }
}
