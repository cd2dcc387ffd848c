using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>One way to repair a failure: what must be at hand, what is used up, how well it holds.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RepairWay
{
    /// <summary>Makes a way.</summary>
    /// <param name="effect">How well it holds.</param>
    /// <param name="needs">Functions that must all be at hand; at least one.</param>
    /// <param name="uses">Those of them that are used up by one repair; may be empty.</param>
    /// <exception cref="ArgumentException">No function is needed, or one is used up that is not needed.</exception>
    public RepairWay(RepairEffect effect, IReadOnlyList<KitFunction> needs, IReadOnlyList<KitFunction> uses)
    {
        Effect = Guard.Defined(effect);
        Needs = [.. Guard.NotNull(needs).Select(f => Guard.Defined(f, nameof(needs))).Distinct()];
        UsesUp = [.. Guard.NotNull(uses).Select(f => Guard.Defined(f, nameof(uses))).Distinct()];
        if (Needs.Count == 0)
        {
            throw new ArgumentException("A repair needs at least one function.", nameof(needs));
        }

        if (UsesUp.FirstOrDefault(f => !Needs.Contains(f), (KitFunction)(-1)) is var stray && (int)stray >= 0)
        {
            throw new ArgumentException($"The repair uses up {stray}, which is not among what it needs: {string.Join(", ", Needs)}.", nameof(uses));
        }
    }

    /// <summary>How well it holds.</summary>
    public RepairEffect Effect { get; }

    /// <summary>Functions that must all be at hand.</summary>
    public IReadOnlyList<KitFunction> Needs { get; }

    /// <summary>Functions of which one use is gone afterwards.</summary>
    public IReadOnlyList<KitFunction> UsesUp { get; }
}
