namespace SoloRide.Effort;

/// <summary>What samples of a ride draw from.</summary>
/// <param name="State">Log factors of the ride, the power, pace on foot and the groups.</param>
/// <param name="ConditionsLogSd">How far height and heat scatter the power, mean over the ride.</param>
/// <param name="StopPerMoving">Standing over moving time.</param>
/// <param name="StopLogSd">Its spread.</param>
internal sealed record SpreadTerms(TodayState State, double ConditionsLogSd, double StopPerMoving, double StopLogSd);
