using SoloRide.Internal;

namespace SoloRide.Planning;

/// <content>What was checked, when, and whether that still holds for the ride.</content>
internal sealed partial class PlanBuilder
{
    private static readonly string[] ToCheck = ["access", "permits", "closures", "fire ban", "season"];

    /// <summary>Sorts what was checked from what was not: a date after the plan was made, or too old for the day of the ride, counts as not checked.</summary>
    private static (CheckedItem[] Done, string[] NotChecked) Checks(RideRequest r, ZoneOffsets zone, List<Finding> findings)
    {
        var ride = DateOnly.FromDateTime(zone.ToLocal(r.Start).DateTime);
        var made = DateOnly.FromDateTime(zone.ToLocal(r.PreparedAt is { } now && now < r.Start ? now : r.Start).DateTime);
        var done = new List<CheckedItem>();
        foreach ((string key, DateOnly on) in r.Checked.OrderBy(x => x.Key, StringComparer.Ordinal))
        {
            if (ToCheck.FirstOrDefault(k => k.Equals(key.Trim(), StringComparison.OrdinalIgnoreCase)) is not { } what)
            {
                findings.Add(new Finding(
                    PlanningFindingCodes.CheckUnknown, FindingSeverity.Warning, "Checked",
                    $"'{key}' is given as checked, but is none of {string.Join(", ", ToCheck)}: nothing counts as checked by it."));
                continue;
            }

            int age = ride.DayNumber - on.DayNumber;
            TimeSpan most = what is "access" or "permits" ? r.Options.AccessCheckAge : r.Options.ClosureCheckAge;
            string? why = on > made
                ? $"lies after {Day(made)}, when the plan is made"
                : age > most.TotalDays ? $"is {Text.F(age, 0)} days before the ride; {Text.F(most.TotalDays, 0)} days are trusted" : null;
            if (why is not null)
            {
                findings.Add(new Finding(PlanningFindingCodes.CheckStale, FindingSeverity.Warning, "Checked", $"The check of {what} on {Day(on)} {why}: check again."));
                continue;
            }

            // The later of two spellings counts.
            done.RemoveAll(d => d.What == what && d.On <= on);
            if (!done.Exists(d => d.What == what))
            {
                done.Add(new CheckedItem(what, on));
            }
        }

        return ([.. done.OrderBy(d => Array.IndexOf(ToCheck, d.What))], [.. ToCheck.Where(k => !done.Exists(d => d.What == k))]);
    }

    internal static string Day(DateOnly d) => d.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Below it a share of samples says little.</summary>
    private const int FewSamples = 100;

    private void Rough()
    {
        if (_spread.Samples is > 0 and < FewSamples)
        {
            // Standard error of a share of one half.
            double error = 50 / Math.Sqrt(_spread.Samples);
            _findings.Add(new Finding(
                PlanningFindingCodes.FewSamples, FindingSeverity.Warning, "Options.Samples",
                $"Only {Text.F(_spread.Samples, 0)} {(_spread.Samples == 1 ? "sample" : "samples")}: ranges, chances and the verdict are rough, a chance by about {Text.F(error, 0)} in 100 either way. Ask for at least {Text.F(FewSamples, 0)}.",
                new FindingValue("samples", Text.F(_spread.Samples, 0))));
        }
    }

    /// <summary>A change of the clock before the last time that is told.</summary>
    private void ClockChange(DateTimeOffset until)
    {
        foreach (ZoneTransition t in _zone.Transitions.Where(t => t.From > _request.Start && t.From <= until))
        {
            TimeSpan before = _zone.OffsetAt(t.From.AddSeconds(-1)), by = t.Offset - before;
            if (by == TimeSpan.Zero)
            {
                continue;
            }

            DateTimeOffset old = t.From.ToOffset(before), now = t.From.ToOffset(t.Offset);
            string twice = by < TimeSpan.Zero ? $" The time from {Text.Clock(now)} to {Text.Clock(old)} comes twice." : $" There is no time from {Text.Clock(old)} to {Text.Clock(now)}.";
            _findings.Add(new Finding(
                PlanningFindingCodes.ClockChanges, FindingSeverity.Warning, "Zone",
                $"The clock changes: at {Text.Clock(old)} on {Text.Date(old)} it goes {(by < TimeSpan.Zero ? "back" : "on")} {Text.Span(by.Duration())} to {Text.Clock(now)} ({Text.Offset(t.Offset)}).{twice} Times with {PlanText.Changed} are on the new clock.",
                new FindingValue("at", PlanJson.Instant(now)), new FindingValue("by_s", Text.F(by.TotalSeconds, 0))));
        }
    }
}
