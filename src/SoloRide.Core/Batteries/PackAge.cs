namespace SoloRide.Batteries;

/// <summary>What age and use have left.</summary>
/// <param name="Health">Share of the new capacity [share of 1]; feed it to <see cref="CellPack.HealthFraction"/>.</param>
/// <param name="HealthFraction">The typical value.</param>
/// <param name="CalendarLossFraction">Lost by time [share of 1].</param>
/// <param name="CycleLossFraction">Lost by cycles [share of 1].</param>
/// <param name="ResistanceFactor">Resistance against new; feed it to <see cref="CellPack.ResistanceFactor"/>.</param>
/// <param name="Findings">Limits of validity.</param>
public sealed record PackAge(
    Estimate<UnitsNet.Ratio> Health, double HealthFraction, double CalendarLossFraction, double CycleLossFraction, double ResistanceFactor, IReadOnlyList<Finding> Findings);
