namespace SoloRide.Planning;

/// <summary>What the person at home is told.</summary>
public sealed record HomeTimes
{
    /// <summary>When messages are planned.</summary>
    public required IReadOnlyList<(DateTimeOffset At, string What)> CheckIns { get; init; }

    /// <summary>When the rider is back: P50 to P95.</summary>
    public required Estimate<DateTimeOffset> Back { get; init; }

    /// <summary>From then the rider is late.</summary>
    public required DateTimeOffset Overdue { get; init; }

    /// <summary>Then the contact calls the number on the sheet.</summary>
    public required DateTimeOffset Alarm { get; init; }
}
