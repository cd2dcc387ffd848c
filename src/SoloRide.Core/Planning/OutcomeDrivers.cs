namespace SoloRide.Planning;

/// <summary>Which uncertain inputs drive one number of the plan.</summary>
/// <param name="Outcome">The number, such as "finish" or "water drunk".</param>
/// <param name="Drivers">Inputs with the share of its variance that each explains alone [share of 1], largest first; they add up to less than one where inputs act together.</param>
public sealed record OutcomeDrivers(string Outcome, IReadOnlyList<(string Name, double ShareFraction)> Drivers);
