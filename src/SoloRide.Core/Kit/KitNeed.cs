using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>Something the ride asks for that is no repair: a function and the decision behind it.</summary>
/// <remarks>Immutable. Needs come before repairs in the choice of kit.</remarks>
public sealed record KitNeed
{
    /// <summary>Makes a need.</summary>
    /// <param name="function">What must be at hand.</param>
    /// <param name="level">Whether near home too.</param>
    /// <param name="because">The decision or number that asks for it, such as "help may take 24 h, low 2 C".</param>
    /// <exception cref="ArgumentException">The reason is empty.</exception>
    public KitNeed(KitFunction function, KitLevel level, string because)
    {
        Function = Guard.Defined(function);
        Level = Guard.Defined(level);
        Because = Guard.NotEmpty(because);
    }

    /// <summary>What must be at hand.</summary>
    public KitFunction Function { get; }

    /// <summary>Whether near home too.</summary>
    public KitLevel Level { get; }

    /// <summary>The decision behind it.</summary>
    public string Because { get; }

    /// <summary>What a lone rider needs when bike and rider part or no one comes for hours.</summary>
    /// <param name="waitForHelp">Time until others arrive at the worst place.</param>
    /// <param name="mayBeDark">Whether the wait or the way out may run into the night.</param>
    /// <param name="lowest">Lowest air temperature while waiting; null when not known.</param>
    /// <param name="insects">Whether biting insects are about.</param>
    /// <param name="fireAllowed">What local rules say of open fire; only a clear yes asks for a fire lighter.</param>
    /// <returns>The needs.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The wait is negative.</exception>
    [Source("practice-emergency-items", "what stays with the rider")]
    public static IReadOnlyList<KitNeed> ForWaiting(TimeSpan waitForHelp, bool mayBeDark, UnitsNet.Temperature? lowest = null, bool insects = false, Known fireAllowed = default)
    {
        Guard.NotNegative(waitForHelp);
        Guard.Defined(fireAllowed);
        string wait = $"help may take {Text.Span(waitForHelp)}";
        string cold = lowest is { } t ? $"{wait} at {Text.F(t.DegreesCelsius, 0)} C" : $"{wait}, lowest temperature not known";
        List<KitNeed> needs =
        [
            new(KitFunction.Messenger, KitLevel.Always, "calling for help alone"),
            new(KitFunction.Whistle, KitLevel.Always, "being found by ear"),
            new(KitFunction.FirstAid, KitLevel.Always, $"own injuries; {wait}"),
            new(KitFunction.Light, mayBeDark ? KitLevel.Always : KitLevel.FarOut, mayBeDark ? "the way out may run into the night" : $"{wait}: it may run into the night"),
            new(KitFunction.BarrierBag, KitLevel.FarOut, cold),
            new(KitFunction.Insulation, KitLevel.FarOut, cold),
            new(KitFunction.SignalMark, KitLevel.FarOut, "being seen from the air"),
        ];
        if (insects)
        {
            needs.Add(new(KitFunction.InsectProtection, KitLevel.FarOut, $"insects while waiting: {wait}"));
        }

        if (fireAllowed == SoloRide.Known.Yes)
        {
            needs.Add(new(KitFunction.Fire, KitLevel.FarOut, $"{cold}; open fire is allowed"));
        }

        return needs;
    }
}
