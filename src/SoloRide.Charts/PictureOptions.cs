using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Size and units of a picture.</summary>
/// <remarks>Immutable.</remarks>
public sealed record PictureOptions
{
    /// <summary>1200 by 700 pixels, metric.</summary>
    public static PictureOptions Default { get; } = new();

    /// <summary>Units of distance, height, water and temperature.</summary>
    public MeasureSystem Units
    {
        get;
        init => field = Enum.IsDefined(value) ? value : throw new ArgumentOutOfRangeException(nameof(Units), value, "Units is not a known measure system.");
    }

    /// <summary>Width of the layout [900 to 4000 px].</summary>
    public int WidthPx { get; init => field = InRange(value, 900, 4000, nameof(WidthPx)); } = 1200;

    /// <summary>Height of the layout [560 to 4000 px].</summary>
    public int HeightPx { get; init => field = InRange(value, 560, 4000, nameof(HeightPx)); } = 700;

    /// <summary>Dots of the PNG for each pixel of the layout [0.5 to 4]: 2 for sharp print. An SVG does not need it.</summary>
    public double DensityFactor
    {
        get;
        init => field = value is >= 0.5 and <= 4 ? value : throw new ArgumentOutOfRangeException(nameof(DensityFactor), value, "DensityFactor must lie between 0.5 and 4.");
    }
    = 1;

    private static int InRange(int value, int low, int high, string name)
        => value >= low && value <= high ? value : throw new ArgumentOutOfRangeException(name, value, FormattableString.Invariant($"{name} must lie between {low} and {high} px."));
}
