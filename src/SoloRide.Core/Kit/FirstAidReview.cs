using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>First aid against likely injuries and the time until others arrive.</summary>
/// <remarks>
/// Contents are common practice; medical questions: a doctor. Which injuries are likely is taken from published counts (grazes and cuts first, then sprains,
/// then fractures of shoulder and arm). Immutable.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record FirstAidReview
{
    /// <summary>From this wait on, splint, sling and protection against cooling are asked for.</summary>
    [Source("assumption-kit", "an hour alone is long")]
    private static readonly TimeSpan LongWait = TimeSpan.FromHours(1);

    private FirstAidReview(IReadOnlyList<FirstAidGap> gaps, IReadOnlyList<Finding> findings)
    {
        Gaps = gaps;
        Findings = findings;
    }

    /// <summary>Injuries that nothing in the bag answers.</summary>
    public IReadOnlyList<FirstAidGap> Gaps { get; }

    /// <summary>What the reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Injuries per 1 000 h that were published, with the chance of at least one in some hours.</summary>
    /// <param name="setting">Which count.</param>
    /// <param name="hours">Time ridden; zero or more.</param>
    /// <returns>[share of 1] Chance of at least one injury of any severity.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative.</exception>
    [Source("zhao-2023", "club members: 3.6 per 1 000 h, published rule BD1")]
    [Source("taylor-ranse", "marathon event: 8.4 per 1 000 h, published rule BD2")]
    [Source("palmer-2021", "enduro racing: 38.3 per 1 000 h, published rule BD3")]
    public static double InjuryProbability(InjurySetting setting, TimeSpan hours)
        => CountKernel.AtLeastOne(
            Guard.Defined(setting) switch { InjurySetting.ClubRiding => 3.6, InjurySetting.MarathonEvent => 8.4, _ => 38.3 },
            Guard.NotNegative(hours).TotalHours);

    /// <summary>Reviews a first-aid bag.</summary>
    /// <param name="items">What is in it.</param>
    /// <param name="timeUntilOthersArrive">At the worst place; zero or more.</param>
    /// <param name="rideDate">Day of the ride; without it nothing is called expired.</param>
    /// <returns>Gaps, expired items, cautions.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative.</exception>
    [Source("nsaid-caution", "with exertion and much drinking")]
    public static FirstAidReview Of(IReadOnlyList<FirstAidItem> items, TimeSpan timeUntilOthersArrive, DateOnly? rideDate = null)
    {
        items = [.. Guard.NotNull(items)];
        Guard.NotNegative(timeUntilOthersArrive);
        var findings = new List<Finding>();
        foreach (FirstAidItem i in items)
        {
            if (i.ExpiresOn is not { } last)
            {
                continue;
            }

            if (rideDate is not { } day)
            {
                findings.Add(new Finding(KitFindingCodes.ExpiryUnknown, FindingSeverity.Note, i.Name, $"'{i.Name}' can be used to {Text.Day(last)}; the day of the ride is not given."));
            }
            else if (last < day)
            {
                findings.Add(new Finding(KitFindingCodes.Expired, FindingSeverity.Warning, i.Name, $"'{i.Name}' expired on {Text.Day(last)}, before the ride on {Text.Day(day)}: replace it."));
            }
        }

        if (items.Where(i => i.IsAntiInflammatory).Select(i => i.Name).ToArray() is { Length: > 0 } pain)
        {
            findings.Add(new Finding(
                KitFindingCodes.AntiInflammatory, FindingSeverity.Warning, string.Join(", ", pain),
                "Anti-inflammatory pain-killers during long exertion, and with much drinking, have been linked to low blood sodium and harm to the kidneys: ask a doctor before the ride."));
        }

        HashSet<FirstAidUse> have = [.. items.Where(i => !(i.ExpiresOn is { } e && rideDate is { } d && e < d)).Select(i => i.Use)];
        var gaps = new List<FirstAidGap>();
        foreach ((InjuryKind injury, FirstAidUse[] uses) in Needed(timeUntilOthersArrive >= LongWait))
        {
            FirstAidUse[] missing = [.. uses.Where(u => !have.Contains(u))];
            if (missing.Length > 0)
            {
                gaps.Add(new FirstAidGap(injury, missing));
                findings.Add(new Finding(
                    KitFindingCodes.FirstAidGap, FindingSeverity.Caution, injury.ToString(),
                    $"For {Text.Words(injury)} the bag lacks {string.Join(", ", missing.Select(Text.Words))}; others arrive after {Text.Span(timeUntilOthersArrive)} at the worst place."));
            }
        }

        return new FirstAidReview(gaps, findings);
    }

    /// <summary>What the bag lacks, what has expired, and the cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines(Gaps.Count == 0 ? "Each injury asked for is answered." : $"Injuries that the bag does not answer in full: {string.Join(", ", Gaps.Select(g => Text.Words(g.Injury)))}.", Findings, Cautions.Sentences);

    [Source("practice-first-aid", "contents by injury")]
    private static (InjuryKind Injury, FirstAidUse[] Uses)[] Needed(bool longWait)
    {
        (InjuryKind, FirstAidUse[])[] always =
        [
            (InjuryKind.Graze, [FirstAidUse.WoundCleaning, FirstAidUse.Dressing]),
            (InjuryKind.HeavyBleeding, [FirstAidUse.PressureBandage, FirstAidUse.Gloves]),
            (InjuryKind.Blister, [FirstAidUse.BlisterCare]),
        ];
        return longWait
            ? [.. always,
                (InjuryKind.Sprain, [FirstAidUse.ElasticBandage]),
                (InjuryKind.Fracture, [FirstAidUse.Sling, FirstAidUse.Splint]),
                (InjuryKind.Cold, [FirstAidUse.BarrierSheet]),
                (InjuryKind.Heat, [FirstAidUse.SunProtection])]
            : always;
    }
}
