using System.Reflection;
using System.Text.RegularExpressions;
using SoloRide.Accuracy;
using SoloRide.Internal;

namespace SoloRide.Tests.Escape;

/// <summary>Published rules that the library uses are cited at their constants by "published rule XX1"; this counts used against listed.</summary>
public sealed partial class PublishedRulesTests
{
    private const BindingFlags All = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    /// <summary>The rules of this module's topics that no constant uses, and why. Rules of other topics belong to other modules.</summary>
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
        ["WK1"] = "the rule lives with the pace on foot and is checked by walking_rule_checks",
        ["WK3"] = "the rule lives with the pace on foot and is checked by walking_rule_checks",
        ["WK9"] = "the curves live with the pace on foot and are checked by walking_rate_curves",
        ["WK10"] = "coefficients refused",
        ["WK8"] = "a note on one property",
        ["WK11"] = "no figure seen",
        ["XR1"] = "a survival limit above the design value used",
        ["XR4"] = "tests of balance above the design value used",
        ["XR5"] = "press, not for use",
    };

    [Fact]
    public void RulesCitedInCode_AreListed_AndOwnTopicsAreUsedOrExplained()
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
                    foreach (Match m in Rule().Matches(source.Place))
                    {
                        used.Add(m.Value);
                    }
                }
            }
        }

        Assert.DoesNotContain(used, u => Own(u) && !listed.Contains(u));
        string[] open = [.. listed.Where(id => Own(id) && !used.Contains(id) && !NotUsed.ContainsKey(id)).Order(StringComparer.Ordinal)];
        Assert.True(open.Length == 0, $"Neither used nor explained: {string.Join(", ", open)}");
        Assert.DoesNotContain(NotUsed.Keys, used.Contains);

        // Counted: of the rules of this module's topics at least these are cited at a constant.
        int own = listed.Count(Own), usedOwn = used.Count(u => Own(u) && listed.Contains(u));
        Assert.True(usedOwn + NotUsed.Count == own, $"{usedOwn} used of {own}");
        Assert.True(usedOwn >= 20, $"{usedOwn} used of {own}");

        static bool Own(string id) => id[..2] is "LT" or "SR" or "RV" or "WK" or "XR" or "GR" && id is not ("GR1" or "GR3" or "GR4" or "GR5" or "RV8" or "RV9");
    }

    [GeneratedRegex(@"\b(?:LT|SR|RV|WK|XR|GR|TP|WT)\d{1,2}\b")]
    private static partial Regex Rule();
}
