using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>What goes on the sheet that is left at home.</summary>
/// <remarks>Immutable.</remarks>
public sealed record SheetRequest
{
    /// <summary>Who rides.</summary>
    public required RiderIdentity Rider { get; init => field = Guard.NotNull(value, nameof(Rider)); }

    /// <summary>Who knows the plan: one or two people, none of them on the ride.</summary>
    public required IReadOnlyList<TrustedContact> Contacts
    {
        get;
        init => field = Guard.NotNull(value, nameof(Contacts)).Count is 1 or 2
            ? [.. value]
            : throw new ArgumentException($"One or two contacts are needed; got {value.Count}.", nameof(Contacts));
    }

    /// <summary>Whom they call; null leaves a gap on the sheet that is said in capital letters.</summary>
    public EmergencyCall? Emergency { get; init; }

    /// <summary>Times of messages, overdue and alarm.</summary>
    public required CheckInSchedule Schedule { get; init => field = Guard.NotNull(value, nameof(Schedule)); }

    /// <summary>Name of the ride.</summary>
    public required string Title { get; init => field = Guard.NotEmpty(value, nameof(Title)); }

    /// <summary>Clock of the place of the ride.</summary>
    public required ZoneOffsets RideZone { get; init => field = Guard.NotNull(value, nameof(RideZone)); }

    /// <summary>Planned line in words, with its direction.</summary>
    public string? RouteText { get; init; }

    /// <summary>Where the ride starts.</summary>
    public GeoPoint? StartPlace { get; init; }

    /// <summary>Other lines that may be taken, and why.</summary>
    public IReadOnlyList<string> Alternates { get; init => field = [.. Guard.NotNull(value, nameof(Alternates))]; } = [];

    /// <summary>Camps.</summary>
    public IReadOnlyList<string> Camps { get; init => field = [.. Guard.NotNull(value, nameof(Camps))]; } = [];

    /// <summary>Ways out.</summary>
    public IReadOnlyList<ExitPoint> Exits { get; init => field = [.. Guard.NotNull(value, nameof(Exits))]; } = [];

    /// <summary>What there is to call with.</summary>
    public IReadOnlyList<CommunicationMeans> Means { get; init => field = [.. Guard.NotNull(value, nameof(Means))]; } = [];

    /// <summary>What there is to wait with.</summary>
    public CarriedForWaiting Carried { get; init => field = Guard.NotNull(value, nameof(Carried)); } = new();

    /// <summary>The vehicle at the start.</summary>
    public VehicleAtTrailhead? Vehicle { get; init; }

    /// <summary>Whether illnesses and medicines go on the sheet; the rider's own decision, no unless said.</summary>
    public bool ShareMedical { get; init; }

    /// <summary>Whether the contact may pass the sheet on to rescuers; yes unless said.</summary>
    public bool MayPassOn { get; init; } = true;

    /// <summary>Version of the plan; 1 to 9 999. A new one replaces the old.</summary>
    public int Version { get; init => field = Guard.InRange(value, 1, 9999, "(version)", nameof(Version)); } = 1;

    /// <summary>When the plan was made.</summary>
    public DateTimeOffset? PreparedAt { get; init; }
}
