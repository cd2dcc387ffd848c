using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>What loops are wished for.</summary>
/// <remarks>Immutable.</remarks>
public sealed record LoopRequest
{
    private readonly double _shortestM;
    private readonly double _longestM;
    private readonly double _wishedM = double.NaN;
    private readonly double _leastAscentM = double.NaN;
    private readonly double _mostAscentM = double.NaN;

    /// <summary>Where the ride starts and ends.</summary>
    public required GeoPoint Trailhead { get; init; }

    /// <summary>Shortest length; 0 or more.</summary>
    public required Length Shortest
    {
        get => Length.FromMeters(_shortestM);
        init => _shortestM = Guard.NotNegative(value.Meters, "m", nameof(Shortest));
    }

    /// <summary>Longest length; above 0, to 1 000 km, not below <see cref="Shortest"/>.</summary>
    public required Length Longest
    {
        get => Length.FromMeters(_longestM);
        init => _longestM = Guard.InRange(Guard.Positive(value.Meters, "m", nameof(Longest)), 0, 1_000_000, "m", nameof(Longest));
    }

    /// <summary>Length that is wished for, within the range; null for the middle of the range.</summary>
    public Length? Wished
    {
        get => Si.Length(_wishedM);
        init => _wishedM = value is { } v ? Guard.Positive(v.Meters, "m", nameof(Wished)) : double.NaN;
    }

    /// <summary>Least ascent; null for any.</summary>
    public Length? LeastAscent
    {
        get => Si.Length(_leastAscentM);
        init => _leastAscentM = value is { } v ? Guard.NotNegative(v.Meters, "m", nameof(LeastAscent)) : double.NaN;
    }

    /// <summary>Most ascent; null for any.</summary>
    public Length? MostAscent
    {
        get => Si.Length(_mostAscentM);
        init => _mostAscentM = value is { } v ? Guard.NotNegative(v.Meters, "m", nameof(MostAscent)) : double.NaN;
    }

    /// <summary>How many loops at most; 1 to 50, 3 unless stated.</summary>
    public int Count { get; init => field = Guard.InRange(value, 1, 50, "loops", nameof(Count)); } = 3;

    /// <summary>How much two loops may share: length of common trails over that of the loop with less trail; 0 to 1, 0.5 unless stated.</summary>
    [Source("assumption-routes-loop-wish", "loops share at most half")]
    public double MaxOverlapFraction { get; init => field = Guard.Fraction(value, nameof(MaxOverlapFraction)); } = 0.5;

    /// <summary>How much of a loop may be ridden twice, out and back between the trailhead and the ring; 0 to 1 of its length, 0.25 unless stated.</summary>
    [Source("assumption-routes-loop-wish", "a quarter out and back")]
    public double MaxRepeatFraction { get; init => field = Guard.Fraction(value, nameof(MaxRepeatFraction)); } = 0.25;

    /// <summary>Day, bars that are set aside, and how far the trailhead may lie from a trail.</summary>
    public WayOptions Options { get; init => field = Guard.NotNull(value, nameof(Options)); } = WayOptions.Default;

    /// <summary>Bound of the work in trails looked at, so that the search ends in time and gives the same on every machine; 1 000 to 1 000 000 000, 8 000 000 unless stated (about a second).</summary>
    public int MaxSteps { get; init => field = Guard.InRange(value, 1000, 1_000_000_000, "steps", nameof(MaxSteps)); } = 8_000_000;

    internal double ShortestM => _shortestM;

    internal double LongestM => _longestM;

    internal double WishedM => double.IsNaN(_wishedM) ? (_shortestM + _longestM) / 2 : _wishedM;

    internal double LeastAscentM => _leastAscentM;

    internal double MostAscentM => _mostAscentM;
}
