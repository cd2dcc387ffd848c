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
}
