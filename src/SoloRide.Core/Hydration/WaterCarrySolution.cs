namespace SoloRide.Hydration;

/// <summary>What the search found.</summary>
/// <param name="Feasible">Whether any plan keeps the limit.</param>
/// <param name="CostLKm">Expected litre-kilometres; branches that failed add nothing after it.</param>
/// <param name="FailProbability">Probability of running dry.</param>
/// <param name="BoundLKm">No plan costs less than this.</param>
/// <param name="Proven">Whether the plan is proven to be the best.</param>
/// <param name="States">Search states expanded.</param>
/// <param name="LeastFailProbability">Least probability of running dry that any plan reaches.</param>
internal readonly record struct WaterCarrySolution(
    bool Feasible, double CostLKm, double FailProbability, double BoundLKm, bool Proven, int States, double LeastFailProbability);
