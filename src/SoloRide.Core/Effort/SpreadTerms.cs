namespace SoloRide.Effort;

/// <summary>What samples of a ride draw from.</summary>
/// <param name="PowerLogSd">Of the sustained power.</param>
/// <param name="State">Log factors of the ride and the groups.</param>
/// <param name="FootExtraLogSd">What pace on foot scatters more than riding.</param>
/// <param name="StopPerMoving">Standing over moving time.</param>
/// <param name="StopLogSd">Its spread.</param>
internal sealed record SpreadTerms(double PowerLogSd, TodayState State, double FootExtraLogSd, double StopPerMoving, double StopLogSd);
