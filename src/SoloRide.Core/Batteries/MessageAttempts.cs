using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>How a messenger tries to get one message through.</summary>
/// <remarks>Immutable.</remarks>
public sealed record MessageAttempts
{
    private readonly double _attemptW = BatteriesConstants.MessageAttemptW;
    private readonly double _waitW = 0.05;

    /// <summary>Sky seen from the place.</summary>
    public SkyView Sky { get; init => field = Guard.Defined(value, nameof(Sky)); }

    /// <summary>Chance that one attempt gets through [share of 1, above 0]; null: by the sky view.</summary>
    public double? AttemptProbability { get; init => field = value is { } v ? Guard.InRange(v, 0.001, 1, "(a share of 1)", nameof(AttemptProbability)) : null; }

    /// <summary>When one gives up, 1 to 1 000 attempts.</summary>
    public int MostAttempts { get; init => field = Guard.InRange(value, 1, 1000, "attempts", nameof(MostAttempts)); } = BatteriesConstants.MessageAttempts;

    /// <summary>Power while sending; 0 to 50 W.</summary>
    public Power AttemptPower
    {
        get => Power.FromWatts(_attemptW);
        init => _attemptW = Guard.InRange((double)value.Watts, 0, 50, "W", nameof(AttemptPower));
    }

    /// <summary>Length of one attempt; 1 s to 1 h.</summary>
    public TimeSpan Attempt { get; init => field = Checked(value, nameof(Attempt)); } = TimeSpan.FromSeconds(BatteriesConstants.MessageAttemptS);

    /// <summary>Power while waiting for the receipt; 0 to 50 W.</summary>
    public Power WaitPower
    {
        get => Power.FromWatts(_waitW);
        init => _waitW = Guard.InRange((double)value.Watts, 0, 50, "W", nameof(WaitPower));
    }

    /// <summary>Wait after each attempt, the last included; 0 to 24 h.</summary>
    public TimeSpan Wait
    {
        get;
        init => field = Guard.NotNegative(value, nameof(Wait)) <= TimeSpan.FromDays(1) ? value : throw new ArgumentOutOfRangeException(nameof(Wait), value, "Wait must be 0 to 24 h.");
    }
        = TimeSpan.FromSeconds(BatteriesConstants.MessageWaitS);

    internal double AttemptW => _attemptW;

    internal double WaitW => _waitW;

    private static TimeSpan Checked(TimeSpan value, string name)
        => value >= TimeSpan.FromSeconds(1) && value <= TimeSpan.FromHours(1) ? value : throw new ArgumentOutOfRangeException(name, value, $"{name} must be 1 s to 1 h.");
}
