namespace SoloRide.Planning;

/// <summary>Other ends of the ride than the planned one.</summary>
/// <param name="Required">Whether one should be named before leaving: the forecast is not known to be good about the time of finish.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="Ends">Ways out that the route passes before the finish, in order.</param>
/// <param name="IfBarred">The walk out without the way out whose loss costs most; null without ways out.</param>
/// <remarks>
/// The rule is transferred from aviation (good from one hour before to one hour after the planned arrival, else an alternate is named);
/// no rule for riders was found. Good: the forecast covers the hour, thunder is less likely than 30 %, heat below category 4.
/// Sources: <c>14-cfr-91-167</c>.
/// </remarks>
public sealed record PlanAlternates(bool Required, string Reason, IReadOnlyList<AlternateEnd> Ends, BarredWayOut? IfBarred);
