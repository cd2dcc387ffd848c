namespace SoloRide.Escape;

/// <summary>One limit of waiting.</summary>
/// <param name="Name">What: cold, water, beacon, messenger or phone, medical.</param>
/// <param name="Time">How long.</param>
public sealed record WaitLimit(string Name, TimeSpan Time);
