using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>Looks of lines that stay apart in black and white: six strokes in two inks.</summary>
internal static class LineLooks
{
    private static readonly float[]?[] Dashes = [null, [9, 4], [2, 3], [12, 3, 2, 3], [5, 2], [16, 5]];

    public static (SKColor Color, float Width, float[]? Dash) Of(int index)
        => ((index / Dashes.Length % 2) == 0 ? (index % 2 == 0 ? Ink.Black : Ink.Plum) : index % 2 == 0 ? Ink.Ochre : Ink.Soft, index % 3 == 0 ? 2.4f : 1.9f, Dashes[index % Dashes.Length]);
}
