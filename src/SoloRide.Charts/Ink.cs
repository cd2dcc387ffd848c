using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>The few inks of all pictures. Each differs from the others in lightness too, so that a print in black and white keeps them apart.</summary>
internal static class Ink
{
    public static readonly SKColor Black = new(0x1B, 0x1B, 0x1B);
    public static readonly SKColor Soft = new(0x55, 0x55, 0x55);
    public static readonly SKColor Plum = new(0x6B, 0x2D, 0x6B);
    public static readonly SKColor Ochre = new(0xB0, 0x72, 0x14);
    public static readonly SKColor Rule = new(0xD9, 0xD9, 0xD9);
    public static readonly SKColor Frame = new(0x9A, 0x9A, 0x9A);
    public static readonly SKColor Ground = new(0xE9, 0xE6, 0xE1);
    public static readonly SKColor Band = new(0xD3, 0xC6, 0xD6);
    public static readonly SKColor Paper = SKColors.White;

    /// <summary>Greys of the light phases, from day to night.</summary>
    public static readonly SKColor[] Sky = [SKColors.White, new(0xE4, 0xE4, 0xE4), new(0xC4, 0xC4, 0xC4), new(0xA0, 0xA0, 0xA0), new(0x7C, 0x7C, 0x7C)];
}
