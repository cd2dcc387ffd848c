using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Whether at least two means of finding the way are independent: no single failure takes them all.</summary>
/// <remarks>Common practice, no source: carry two independent means. Immutable.</remarks>
[Entry(NoOutsideCheck = "common practice without a published figure; the rule itself is a definition")]
public sealed record NavigationCheck
{
    private NavigationCheck(IReadOnlyList<string> sharedFailures, bool independent, IReadOnlyList<Finding> findings)
    {
        SharedFailures = sharedFailures;
        AreIndependent = independent;
        Findings = findings;
    }

    /// <summary>What takes every means at once, in the order first named; empty when nothing does.</summary>
    public IReadOnlyList<string> SharedFailures { get; }

    /// <summary>Whether there are two means at least that share no failure.</summary>
    public bool AreIndependent { get; }

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;

    /// <summary>What a reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Checks the means carried.</summary>
    /// <param name="means">The means; may be empty.</param>
    /// <returns>The check.</returns>
    /// <exception cref="ArgumentException">Two means of the same name.</exception>
    public static NavigationCheck Of(IReadOnlyList<NavigationMeans> means)
    {
        Guard.NotNull(means);
        if (means.GroupBy(m => m.Name, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"Two means are named '{twice.Key}'.", nameof(means));
        }

        var findings = new List<Finding>();
        if (means.Count < 2)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.NavigationSingle,
                FindingSeverity.Warning,
                "navigation",
                means.Count == 0 ? "No means of finding the way is listed." : $"'{means[0].Name}' is the only means of finding the way: carry a second that does not fail with it."));
            return new NavigationCheck(means.Count == 0 ? [] : [means[0].Name], false, findings);
        }

        string[] shared =
        [
            .. means[0].DependsOn.Distinct(StringComparer.OrdinalIgnoreCase)
                .Where(d => means.All(m => m.DependsOn.Contains(d, StringComparer.OrdinalIgnoreCase))),
        ];
        bool independent = false;
        for (int i = 0; i < means.Count; i++)
        {
            for (int j = i + 1; j < means.Count; j++)
            {
                independent |= !means[i].DependsOn.Intersect(means[j].DependsOn, StringComparer.OrdinalIgnoreCase).Any();
            }
        }

        if (shared.Length > 0)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.NavigationShared,
                FindingSeverity.Warning,
                "navigation",
                $"One failure takes every means of finding the way: {string.Join(", ", shared)}."));
        }
        else if (!independent)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.NavigationShared,
                FindingSeverity.Caution,
                "navigation",
                "Each two means of finding the way share something that both fail with; no pair is independent."));
        }

        return new NavigationCheck(shared, independent, findings);
    }
}
