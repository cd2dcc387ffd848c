namespace SoloRide.Charts;

/// <summary>Which side of a text stands at its point.</summary>
internal enum TextSide
{
    Left,
    Middle,
    Right,
}
