namespace SoloRide.Planning;

/// <summary>How far a batch of plans is.</summary>
/// <param name="Done">Plans made so far.</param>
/// <param name="Index">Place of the one just made in the order of the requests, from 0.</param>
/// <param name="Title">Its title.</param>
public sealed record PlanBatchProgress(int Done, int Index, string Title);
