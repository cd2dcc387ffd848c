using System.Reflection;
using System.Text.RegularExpressions;
using SoloRide.Accuracy;
using SoloRide.Internal;

namespace SoloRide.Tests.Escape;

/// <summary>
/// Published rules that the library uses, in whatever module, are cited at their constants by "published rule XX1"; this counts used against
/// listed. Every listed rule is either cited or named below with the reason why it is not.
/// </summary>
public sealed partial class PublishedRulesTests
{
    private const int LeastUsed = 47;

    private const BindingFlags All = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    /// <summary>The rules that no constant uses, and why.</summary>
    private static readonly Dictionary<string, string> NotUsed = new(StringComparer.Ordinal)
    {
        ["LT3"] = "the law of sound gives 4.7 s a mile; 5 is its rounding and is checked by lightning_checks",
        ["LT5"] = "a local time of day; the storm clock takes the forecast's onset",
        ["LT6"] = "words, carried in a finding, no number",
        ["SR4"] = "a share, no stopping rule",
        ["SR5"] = "a count of incidents",
        ["SR8"] = "shares of causes",
        ["SR9"] = "a distance of carrying by a team",
        ["SR11"] = "belongs to the device",
        ["SR12"] = "belongs to the device",
        ["SR13"] = "no number: carried in the cautions",
        ["SR15"] = "press, not for use",
        ["SR16"] = "forum post, not for use",
        ["SR17"] = "forum post, not for use",
        ["RV3"] = "helicopters",
        ["RV4"] = "the day and night reserves are used instead",
        ["RV6"] = "covered by the point of no return, which holds for unequal returns",
        ["RV7"] = "a check value of the turn-around, not a constant",
        ["WK2"] = "an off-track base speed; the off-path factor is used instead",
        ["WK8"] = "a note on one property",
        ["WK11"] = "no figure seen",
        ["XR1"] = "a survival limit above the design value used",
        ["XR4"] = "tests of balance above the design value used",
        ["XR5"] = "press, not for use",
        ["TP3"] = "no number: no fixed waiting time; the hour of TP2 is a default that the caller may change",
        ["TP6"] = "what a rescue centre does",
        ["TP7"] = "fuel of aircraft",
        ["TP8"] = "aircraft without a plan; the hour of TP2 is used",
        ["RV8"] = "a drinking rate of walkers; the sweat model is used instead",
        ["RV9"] = "a local time of day; the heat categories are used instead",
        ["GR1"] = "a ratio for schools, given by the caller of a group",
        ["GR3"] = "insurance for permits, not computed",
        ["GR4"] = "insurance for permits, not computed",
        ["GR5"] = "permits, not computed",
        ["RK3"] = "a product of severity, probability and exposure; the sheet of sums is used",
        ["BD4"] = "rates per program day of schools, not of riding hours",
        ["BD5"] = "rates per person-day of schools, not of riding hours",
        ["BD6"] = "rates per program day of schools, not of riding hours",
        ["CD1"] = "survival without clothes; its author asks to use it to rank only",
        ["CD2"] = "survival in thin clothes; its author asks to use it to rank only",
        ["WT2"] = "a day of hard work at 43 C; the sweat model is used instead",
        ["WT3"] = "extremes of deserts; the sweat model is used instead",
        ["FD1"] = "trade practice; needs come from the energy of the ride",
        ["SB1"] = "ratings of bags; the insulation a night needs is computed",
        ["UN1"] = "why riders are not asked for quantiles; no number used",
        ["UN3"] = "words: a source's chance is asked for",
        ["UN4"] = "words",
        ["TY1"] = "a target pressure; changes of the rider's own pressure are computed",
        ["TY3"] = "words",
        ["MS2"] = "messages keep to the 7-bit alphabet",
    };

    [Fact]
    public void RulesCitedInCode_AreListed_AndEveryListedRuleIsUsedOrExplained()
    {
        CsvTable table = CsvTable.Read(Repo.Data("planning", "published_rules.csv"));
        var listed = table.Rows.Select(r => r["id"]).ToHashSet(StringComparer.Ordinal);
        var used = new SortedSet<string>(StringComparer.Ordinal);
        foreach (Type type in typeof(GeoPoint).Assembly.GetTypes())
        {
            foreach (MemberInfo member in type.GetMembers(All).Prepend(type))
            {
                foreach (SourceAttribute source in member.GetCustomAttributes<SourceAttribute>(false))
                {
                    if (!source.Place.Contains("published rule", StringComparison.Ordinal))
                    {
                        continue;
                    }

                    foreach (Match m in Rule().Matches(source.Place))
                    {
                        used.Add(m.Value);
                    }
                }
            }
        }

        string[] unlisted = [.. used.Where(u => !listed.Contains(u))];
        Assert.True(unlisted.Length == 0, $"Cited but not listed: {string.Join(", ", unlisted)}");
        string[] open = [.. listed.Where(id => !used.Contains(id) && !NotUsed.ContainsKey(id)).Order(StringComparer.Ordinal)];
        Assert.True(open.Length == 0, $"Neither used nor explained: {string.Join(", ", open)}");
        string[] both = [.. NotUsed.Keys.Where(used.Contains)];
        Assert.True(both.Length == 0, $"Used by now, so take them off the list of rules not used: {string.Join(", ", both)}");

        // Counted: used against listed, over the whole library.
        Assert.Equal(table.Rows.Count, listed.Count);
        Assert.Equal(listed.Count, used.Count + NotUsed.Count);
        Assert.True(used.Count >= LeastUsed, $"{used.Count} used of {listed.Count}; {LeastUsed} were before.");
    }

    [GeneratedRegex(@"\b[A-Z]{2}\d{1,2}\b")]
    private static partial Regex Rule();
}
