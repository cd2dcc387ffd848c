using UnitsNet;

namespace SoloRide.Escape;

/// <summary>What it costs to take a trail beside the route by mistake.</summary>
/// <param name="AlongRoute">Where it leaves the route.</param>
/// <param name="Trail">Its name.</param>
/// <param name="WalkOutHere">Time out from the junction; null when there is no way out.</param>
/// <param name="Notices">The cost when the mistake is noticed late.</param>
/// <param name="Marked">Whether it is among the worst, to be marked on the cue sheet.</param>
public sealed record WrongTurn(Length AlongRoute, string Trail, TimeSpan? WalkOutHere, IReadOnlyList<LateNotice> Notices, bool Marked)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;

    /// <summary>[s] Time lost on the best way back to the route at the latest notice, and what the time out has grown by; +infinity when there is no way back or out.</summary>
    internal double Cost { get; init; }
}
