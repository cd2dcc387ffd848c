using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>A line of text, kept until everything else is drawn.</summary>
internal readonly record struct TextItem(string Text, float X, float Y, float Size, bool Bold, SKColor Color, float RotateDeg, bool Halo);
