namespace SoloRide.Planning;

/// <summary>One result of a batch.</summary>
/// <typeparam name="T">What is kept of each plan.</typeparam>
/// <param name="Index">Place in the order of the requests, from 0.</param>
/// <param name="Title">Title of the ride.</param>
/// <param name="Kept">What is kept; the default of its type when there is an error.</param>
/// <param name="Error">Why this request cannot be planned; null when it could.</param>
public sealed record BatchedPlan<T>(int Index, string Title, T? Kept, ArgumentException? Error);
