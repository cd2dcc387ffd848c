namespace SoloRide.Routes;

/// <summary>Points as columns; NaN and <see cref="NoTime"/> mark what is unknown. Never changed once built.</summary>
internal sealed class RouteColumns(double[] latDeg, double[] lonDeg, double[]? elevationM, long[]? utcTicks, bool timesBackward = false)
{
    public const long NoTime = long.MinValue;

    public double[] LatDeg { get; } = latDeg;

    public double[] LonDeg { get; } = lonDeg;

    /// <summary>Null when no point has a height.</summary>
    public double[]? ElevationM { get; } = elevationM;

    /// <summary>Null when no point has a time, or the times run backward because the route was reversed.</summary>
    public long[]? UtcTicks { get; } = timesBackward ? null : utcTicks;

    /// <summary>Times of the recording in either direction: the noise of the heights is judged by them.</summary>
    public long[]? RecordedTicks { get; } = utcTicks;

    public int Count => LatDeg.Length;
}
