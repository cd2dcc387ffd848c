using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>A piece of trail between two nodes of a <see cref="TrailNetwork"/>, with its own time in each direction or a step that a pace is asked about.</summary>
/// <remarks><c>default</c> joins node 0 with itself and costs nothing. Immutable.</remarks>
public readonly record struct TrailLink
{
    private readonly double _onS;
    private readonly double _backS;

    /// <summary>A link whose times follow from a pace.</summary>
    /// <param name="a">[0 or more] First node.</param>
    /// <param name="b">[0 or more] Second node.</param>
    /// <param name="step">The trail from <paramref name="a"/> to <paramref name="b"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative node.</exception>
    public TrailLink(int a, int b, TrailStep step)
    {
        A = Guard.InRange(a, 0, int.MaxValue, "(node)");
        B = Guard.InRange(b, 0, int.MaxValue, "(node)");
        Step = step;
        HasOwnTimes = false;
    }

    /// <summary>A link with its own times.</summary>
    /// <param name="a">[0 or more] First node.</param>
    /// <param name="b">[0 or more] Second node.</param>
    /// <param name="aToB">Time from a to b; null when it cannot be taken in this direction.</param>
    /// <param name="bToA">Time from b to a; null when it cannot be taken in this direction.</param>
    /// <param name="lengthM">[m, 0 or more] Length, for the length of the way out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative node, time or length.</exception>
    public TrailLink(int a, int b, TimeSpan? aToB, TimeSpan? bToA, double lengthM = 0)
    {
        A = Guard.InRange(a, 0, int.MaxValue, "(node)");
        B = Guard.InRange(b, 0, int.MaxValue, "(node)");
        _onS = aToB is { } on ? Time(on, a, b, nameof(aToB)) : double.PositiveInfinity;
        _backS = bToA is { } back ? Time(back, b, a, nameof(bToA)) : double.PositiveInfinity;
        Step = new TrailStep(Guard.NotNegative(lengthM, "m"), 0);
        HasOwnTimes = true;
    }

    /// <summary>First node.</summary>
    public int A { get; }

    /// <summary>Second node.</summary>
    public int B { get; }

    /// <summary>The trail from <see cref="A"/> to <see cref="B"/>; level where only times were given.</summary>
    public TrailStep Step { get; }

    /// <summary>Whether the link carries its own times, which no pace changes.</summary>
    public bool HasOwnTimes { get; }

    /// <summary>Own time from <see cref="A"/> to <see cref="B"/>; null when there is none.</summary>
    public TimeSpan? AToB => HasOwnTimes && double.IsFinite(_onS) ? TimeSpan.FromSeconds(_onS) : null;

    /// <summary>Own time from <see cref="B"/> to <see cref="A"/>; null when there is none.</summary>
    public TimeSpan? BToA => HasOwnTimes && double.IsFinite(_backS) ? TimeSpan.FromSeconds(_backS) : null;

    internal double OwnOnS => _onS;

    internal double OwnBackS => _backS;

    private static double Time(TimeSpan value, int from, int to, string name)
        => value >= TimeSpan.Zero
            ? value.TotalSeconds
            : throw new ArgumentOutOfRangeException(
                name, value, $"The time of the link from node {Text.F(from, 0)} to node {Text.F(to, 0)} is {Text.F(value.TotalSeconds, 3)} s; it must be 0 s or more.");
}
