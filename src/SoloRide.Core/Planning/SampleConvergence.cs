namespace SoloRide.Planning;

/// <summary>How far the plan's numbers would still move with other samples: standard errors from eight consecutive parts of the samples.</summary>
/// <remarks>On the safe side: parts are less evenly spread than the whole. At least 256 samples are needed.</remarks>
/// <param name="Samples">Samples drawn.</param>
/// <param name="FinishTypical">Standard error of the typical finish (P50).</param>
/// <param name="FinishHigh">Of the P90 finish.</param>
/// <param name="LateFinish">Of the P95 finish.</param>
/// <param name="ShortWaterProbability">Of the chance that water runs short [share of 1].</param>
public sealed record SampleConvergence(int Samples, TimeSpan FinishTypical, TimeSpan FinishHigh, TimeSpan LateFinish, double ShortWaterProbability);
