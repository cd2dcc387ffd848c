namespace SoloRide.Planning;

/// <summary>A station before anything is computed for it.</summary>
/// <param name="Name">Name.</param>
/// <param name="Kind">What it is.</param>
/// <param name="AlongM">Distance from the start [m].</param>
/// <param name="Source">Index into the request's sources, or -1.</param>
/// <param name="OfClock">Whether it stands for a closing time, whose name is no name of the place.</param>
internal sealed record StationSeed(string Name, StationKind Kind, double AlongM, int Source = -1, bool OfClock = false);
