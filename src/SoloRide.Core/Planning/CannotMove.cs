namespace SoloRide.Planning;

/// <summary>If the rider cannot move: when silence is noticed, how long help may take, and what waiting takes.</summary>
/// <remarks>Response times are classes by assumption, anchored on a few published means.</remarks>
public sealed record CannotMove
{
    /// <summary>When silence is noticed, earliest and latest after the event.</summary>
    public required (TimeSpan Mean, TimeSpan Worst) Detection { get; init; }

    /// <summary>Time until help from the notice, as assumed for the class.</summary>
    public required TimeSpan Response { get; init; }

    /// <summary>Name of the class.</summary>
    public required string ResponseClass { get; init; }

    /// <summary>How long waiting can be borne; null when it could not be computed.</summary>
    public TimeSpan? TolerableWait { get; init; }

    /// <summary>What limits the wait.</summary>
    public required string LimitedBy { get; init; }

    /// <summary>What to have for the wait, in words.</summary>
    public required IReadOnlyList<string> Carry { get; init; }
}
