namespace SoloRide.Routes;

/// <summary>What bars the way on a trail.</summary>
[Flags]
public enum TrailBars
{
    /// <summary>Nothing that the data know.</summary>
    None = 0,

    /// <summary>Closed.</summary>
    Closed = 1,

    /// <summary>Against a one-way rule.</summary>
    OneWay = 2,

    /// <summary>No bicycles.</summary>
    NoBicycles = 4,
}
