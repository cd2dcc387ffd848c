namespace SoloRide.Routes;

/// <summary>Where lines that cross meet.</summary>
public enum CrossingRule
{
    /// <summary>A crossing is a junction unless the lines are on different layers (bridge, tunnel). For recorded and drawn lines.</summary>
    Junction,

    /// <summary>Lines meet only at points that they share, and at ends that lie within the tolerance. For data whose lines were joined by their makers.</summary>
    SharedPoints,
}
