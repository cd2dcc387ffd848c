using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Energy, time and chance of getting one satellite message through under sky or canopy.</summary>
/// <remarks>Attempts are taken as independent; they are not, so wait and move to a better view between them. Static and pure; safe to call from any thread.</remarks>
[Entry]
public static class MessageEstimator
{
    /// <summary>Works one message out.</summary>
    /// <param name="attempts">How it is tried.</param>
    /// <returns>Chance, energy and time.</returns>
    /// <exception cref="ArgumentNullException">No attempts.</exception>
    public static MessageCost Estimate(MessageAttempts attempts)
    {
        Guard.NotNull(attempts);
        double p = attempts.AttemptProbability ?? RetryKernel.AttemptProbability(attempts.Sky);
        double n = attempts.MostAttempts, capped = RetryKernel.ExpectedCapped(p, n), for95 = RetryKernel.For95(p);
        double attemptS = attempts.Attempt.TotalSeconds, waitS = attempts.Wait.TotalSeconds;
        return new MessageCost(
            RetryKernel.Within(p, n), capped,
            Energy.FromWattHours(RetryKernel.EnergyMwh(capped, attempts.AttemptW, attemptS, attempts.WaitW, waitS) / 1000),
            (int)for95,
            Energy.FromWattHours(RetryKernel.EnergyMwh(for95, attempts.AttemptW, attemptS, attempts.WaitW, waitS) / 1000),
            TimeSpan.FromSeconds(RetryKernel.TimeS(for95, attemptS, waitS)));
    }
}
