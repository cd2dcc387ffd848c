using SoloRide.Internal;
using SoloRide.Kit;

namespace SoloRide.Planning;

/// <summary>A small event on one route: waves, field, checkpoints.</summary>
/// <remarks>Immutable.</remarks>
public sealed record EventRequest
{
    /// <summary>The ride of a middle rider of the field; its start is replaced by that of each wave.</summary>
    public required RideRequest MiddleRider { get; init => field = Guard.NotNull(value, nameof(MiddleRider)); }

    /// <summary>Waves, at least one.</summary>
    public required IReadOnlyList<EventWave> Waves { get; init => field = [.. Guard.NotNull(value, nameof(Waves))]; }

    /// <summary>Checkpoints; the finish is added when it is missing.</summary>
    public required IReadOnlyList<EventCheckpoint> Checkpoints { get; init => field = [.. Guard.NotNull(value, nameof(Checkpoints))]; }

    /// <summary>Spread of the field: geometric standard deviation of the riders' times [1 to 2].</summary>
    public required double FieldGsdFactor { get; init => field = Guard.InRange(value, 1, 2, "(factor)", nameof(FieldGsdFactor)); }

    /// <summary>Share of the field that each cut-off lets through [share of 1, 0.5 to 0.999]; 0.95 unless stated.</summary>
    public double ThroughProbability { get; init => field = Guard.InRange(value, 0.5, 0.999, "(a share of 1)", nameof(ThroughProbability)); } = 0.95;

    /// <summary>Punctures of one rider.</summary>
    public required FailureRate Punctures { get; init => field = Guard.NotNull(value, nameof(Punctures)); }

    /// <summary>What the organiser must have settled; listed, never judged.</summary>
    public IReadOnlyList<string> Papers { get; init => field = [.. Guard.NotNull(value, nameof(Papers))]; } = ["permit of the land manager", "insurance of the organiser", "notice to the emergency service", "first aid and a way to call it", "road crossings agreed", "list of starters and of those who are back"];
}
