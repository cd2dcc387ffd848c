namespace SoloRide.Planning;

/// <summary>A group of riders that starts together.</summary>
/// <param name="Name">Name.</param>
/// <param name="Start">Start, with the place's offset.</param>
/// <param name="Riders">[1 or more] Number of riders.</param>
public sealed record EventWave(string Name, DateTimeOffset Start, int Riders);
