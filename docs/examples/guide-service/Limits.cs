namespace GuideService;

/// <summary>What one caller may ask of the service. Set in the section <c>Limits</c> of the configuration.</summary>
public sealed class Limits
{
    /// <summary>Largest body [bytes].</summary>
    public long BodyBytes { get; set; } = 8_000_000;

    /// <summary>Longest time for one reply; a batch has <see cref="BatchTime"/>.</summary>
    public TimeSpan ReplyTime { get; set; } = TimeSpan.FromSeconds(20);

    /// <summary>Longest time for a batch.</summary>
    public TimeSpan BatchTime { get; set; } = TimeSpan.FromMinutes(5);

    /// <summary>Plans computed at once; more wait in the queue.</summary>
    public int AtOnce { get; set; } = Math.Max(2, Environment.ProcessorCount);

    /// <summary>Calls that may wait; beyond it a call is refused with 503.</summary>
    public int Queue { get; set; } = 400;

    /// <summary>Rides in one batch.</summary>
    public int BatchRides { get; set; } = 200;

    /// <summary>Samples of one plan.</summary>
    public int Samples { get; set; } = 10_000;
}
