using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>What one message costs.</summary>
/// <param name="WithinProbability">Chance that it is through before one gives up [share of 1].</param>
/// <param name="ExpectedAttemptsFactor">Mean number of attempts.</param>
/// <param name="Expected">Mean energy.</param>
/// <param name="AttemptsFor95">Attempts after which 95 of 100 messages are through, also beyond where one gives up.</param>
/// <param name="For95">Energy of these.</param>
/// <param name="TimeFor95">Time of these; the wait after the last does not count.</param>
public sealed record MessageCost(double WithinProbability, double ExpectedAttemptsFactor, Energy Expected, int AttemptsFor95, Energy For95, TimeSpan TimeFor95);
