namespace SoloRide.Planning;

/// <summary>An input that was not given: what stands in for it, and what knowing it would change.</summary>
/// <param name="Name">The input, in words.</param>
/// <param name="StandIn">What the plan used instead, or what it left out.</param>
/// <param name="Effect">What knowing it would change.</param>
/// <param name="Outcome">The number whose spread it would narrow; empty when nothing is drawn for it.</param>
/// <param name="ShareFraction">Share of that number's variance that would go [share of 1, first order]; NaN when nothing is drawn for it or no samples were asked for.</param>
public sealed record MissingInput(string Name, string StandIn, string Effect, string Outcome = "", double ShareFraction = double.NaN);
