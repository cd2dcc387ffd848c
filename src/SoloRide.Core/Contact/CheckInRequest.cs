using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>What the times of messages, overdue and alarm are worked out from.</summary>
/// <remarks>Immutable.</remarks>
public sealed record CheckInRequest
{
    /// <summary>Decision points in any order, among them exactly one start and one finish.</summary>
    public required IReadOnlyList<DecisionPoint> Points { get; init => field = [.. Guard.NotNull(value, nameof(Points))]; }

    /// <summary>Finish that is passed in 1 of 20 such rides only (P95); not before the typical finish.</summary>
    public required DateTimeOffset LateFinish { get; init; }

    /// <summary>How long the rider can lie hurt at the worst place with what is carried; zero or more.</summary>
    public required TimeSpan ToleratedWait { get; init => field = Guard.NotNegative(value, nameof(ToleratedWait)); }

    /// <summary>Time from the alarm until others reach the rider; zero or more.</summary>
    public required TimeSpan Response { get; init => field = Guard.NotNegative(value, nameof(Response)); }

    /// <summary>How late a message may be before the contact acts; 30 min unless stated.</summary>
    [Source("aviation-overdue", "30 min, published rule TP5")]
    public TimeSpan Grace { get; init => field = Guard.NotNegative(value, nameof(Grace)); } = TimeSpan.FromMinutes(30);

    /// <summary>How long the contact tries and waits before calling; above zero, 1 h unless stated.</summary>
    [Source("nz-intentions", "try, wait one hour, try again, call: published rule TP2")]
    public TimeSpan ContactReaction
    {
        get;
        init => field = value > TimeSpan.Zero ? value : throw new ArgumentOutOfRangeException(nameof(ContactReaction), value, "ContactReaction must be above zero.");
    } = TimeSpan.FromHours(1);

    /// <summary>Whether the contact calls early, after <see cref="EarlyReaction"/>: medical risk, a child, severe cold, or at the rider's wish.</summary>
    public bool EarlyAlarm { get; init; }

    /// <summary>How long the contact tries when the alarm is early; above zero, 15 min unless stated.</summary>
    [Source("assumption-contact", "try once, then call")]
    public TimeSpan EarlyReaction
    {
        get;
        init => field = value > TimeSpan.Zero ? value : throw new ArgumentOutOfRangeException(nameof(EarlyReaction), value, "EarlyReaction must be above zero.");
    } = TimeSpan.FromMinutes(15);

    /// <summary>Where messages can pass.</summary>
    public IReadOnlyList<ContactStretch> Stretches { get; init => field = [.. Guard.NotNull(value, nameof(Stretches))]; } = [];

    /// <summary>What there is to call with.</summary>
    public IReadOnlyList<CommunicationMeans> Means { get; init => field = [.. Guard.NotNull(value, nameof(Means))]; } = [];

    /// <summary>The only "now"; null: nothing is called past.</summary>
    public DateTimeOffset? PreparedAt { get; init; }

    internal TimeSpan Reaction => EarlyAlarm ? EarlyReaction : ContactReaction;
}
