using SoloRide.Kit;

namespace SoloRide.Planning;

/// <summary>Spares that all bikes of a group share against one kind of failure.</summary>
/// <param name="Kind">The failure.</param>
/// <param name="ExpectedFactor">[events] Expected over all bikes and the whole route.</param>
/// <param name="Carry">Spares or repairs so that they do as often as asked for.</param>
/// <param name="EnoughProbability">[share of 1] How often they do.</param>
/// <param name="FromLog">Whether the rate comes from a log; else from a wide prior.</param>
public sealed record GroupSpare(FailureKind Kind, double ExpectedFactor, int Carry, double EnoughProbability, bool FromLog);
