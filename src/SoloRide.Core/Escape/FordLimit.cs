using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Whether a ford may be waded, from depth and speed of the water, and when it may no longer while the river rises.</summary>
/// <remarks>
/// Depth × speed against a published design value, with published caps on depth and speed. How a bike in the hands changes footing was found
/// in no source. Cold, bed, slope of the bank, driftwood and what lies downstream are not seen. Sources: <c>cox-2010</c>,
/// <c>assumption-ford</c>. Immutable.
/// </remarks>
[Entry]
public sealed record FordLimit
{
    private FordLimit(double depthM, double speedMps)
    {
        Depth = Length.FromMeters(depthM);
        WaterSpeed = Speed.FromMetersPerSecond(speedMps);
        DepthTimesSpeedM2PerS = depthM * speedMps;
        Verdict = FordKernel.Judge(depthM, speedMps);
        Findings =
        [
            new Finding(
                EscapeFindingCodes.FordAssumed,
                FindingSeverity.Caution,
                "ford",
                "The limit is a design value for people on firm ground; a bike, cold, a rough bed and what lies downstream make it worse. When in doubt do not cross."),
        ];
    }

    /// <summary>Depth of the water where it is deepest on the way over.</summary>
    public Length Depth { get; }

    /// <summary>Speed of the water.</summary>
    public Speed WaterSpeed { get; }

    /// <summary>Depth × speed [m²/s].</summary>
    public double DepthTimesSpeedM2PerS { get; }

    /// <summary>The verdict.</summary>
    public FordVerdict Verdict { get; }

    /// <summary>The verdict in words.</summary>
    public string Words => WordsOf(Verdict);

    /// <summary>What a reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;

    /// <summary>Judges a ford.</summary>
    /// <param name="depth">Where it is deepest on the way over; zero or more.</param>
    /// <param name="speed">Of the water; zero or more.</param>
    /// <returns>The verdict.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A negative value.</exception>
    public static FordLimit Judge(Length depth, Speed speed)
        => new(Guard.NotNegative(depth.Meters, "m", nameof(depth)), Guard.NotNegative(speed.MetersPerSecond, "m/s", nameof(speed)));

    /// <summary>The first time at which a verdict is reached while depth and speed change linearly.</summary>
    /// <param name="verdict">Doubtful or do not cross.</param>
    /// <param name="depth">Depth now.</param>
    /// <param name="speed">Speed now.</param>
    /// <param name="depthRisePerHour">Change of depth in an hour; negative when falling.</param>
    /// <param name="speedRisePerHour">Change of speed in an hour; negative when falling.</param>
    /// <returns>Time from now; zero when it holds already, null when it is never reached within ten days.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A negative depth or speed, or a verdict that is no limit.</exception>
    public static TimeSpan? TimeUntil(FordVerdict verdict, Length depth, Speed speed, Length depthRisePerHour, Speed speedRisePerHour)
    {
        if (verdict is not (FordVerdict.Doubtful or FordVerdict.DoNotCross))
        {
            throw new ArgumentOutOfRangeException(nameof(verdict), verdict, "verdict must be Doubtful or DoNotCross.");
        }

        double d = Guard.NotNegative(depth.Meters, "m", nameof(depth)), v = Guard.NotNegative(speed.MetersPerSecond, "m/s", nameof(speed));
        double rd = Guard.Finite(depthRisePerHour.Meters, "m per h", nameof(depthRisePerHour));
        double rv = Guard.Finite(speedRisePerHour.MetersPerSecond, "m/s per h", nameof(speedRisePerHour));
        FordVerdict now = FordKernel.Judge(d, v);
        if (now >= verdict)
        {
            return TimeSpan.Zero;
        }

        // Speed in deeper than ankle-deep water counts as soon as both limits are passed.
        double fast = Math.Max(FordKernel.WhenH(v, rv, FordKernel.SpeedMps), verdict == FordVerdict.DoNotCross ? FordKernel.WhenH(d, rd, FordKernel.AnkleM) : 0);
        double h = Math.Min(
            Math.Min(FordKernel.WhenH(d, rd, FordKernel.DepthM), fast),
            FordKernel.WhenProductH(d, v, rd, rv, verdict == FordVerdict.DoNotCross ? FordKernel.ProductM2PerS : FordKernel.DoubtfulM2PerS));
        return h <= 240 ? TimeSpan.FromHours(h) : null;
    }

    /// <summary>A verdict in words.</summary>
    /// <param name="verdict">The verdict.</param>
    /// <returns>Text.</returns>
    public static string WordsOf(FordVerdict verdict) => Guard.Defined(verdict) switch
    {
        FordVerdict.DoNotCross => "do not cross",
        FordVerdict.Doubtful => "doubtful: do not cross alone",
        _ => "below the limit used, check on the spot",
    };
}
