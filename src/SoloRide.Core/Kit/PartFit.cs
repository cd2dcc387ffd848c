using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>Sizes of a bike, or of a spare part made for one; what is not known stays null and is not compared.</summary>
/// <remarks>Immutable. Names of types (hanger, pads, axle) are the caller's own words; they are compared letter by letter, case aside.</remarks>
public sealed record PartFit
{
    private readonly double _valveM = double.NaN;
    private readonly double _rimDepthM = double.NaN;
    private readonly double _widthLowM = double.NaN;
    private readonly double _widthHighM = double.NaN;

    /// <summary>Type of derailleur hanger.</summary>
    public string? HangerType { get; init; }

    /// <summary>Shape of brake pads.</summary>
    public string? PadShape { get; init; }

    /// <summary>Type of axle.</summary>
    public string? AxleType { get; init; }

    /// <summary>Sprockets at the back, which fix the width of the chain; 1 to 14.</summary>
    public int? Sprockets { get; init => field = value is { } v ? Guard.InRange(v, 1, 14, "sprockets", nameof(Sprockets)) : null; }

    /// <summary>Bead seat diameter of the wheel in whole millimetres as standards print it, such as 622; 250 to 700.</summary>
    public int? BeadSeatMm { get; init => field = value is { } v ? Guard.InRange(v, 250, 700, "mm", nameof(BeadSeatMm)) : null; }

    /// <summary>Length of a spare tube's valve; 20 to 120 mm.</summary>
    public Length? ValveLength
    {
        get => Si.Length(_valveM);
        init => _valveM = value is { } v ? Guard.InRange(v.Millimeters, 20, 120, "mm", nameof(ValveLength)) / 1000 : double.NaN;
    }

    /// <summary>Depth of the rim that the valve must pass; 5 to 100 mm.</summary>
    public Length? RimDepth
    {
        get => Si.Length(_rimDepthM);
        init => _rimDepthM = value is { } v ? Guard.InRange(v.Millimeters, 5, 100, "mm", nameof(RimDepth)) / 1000 : double.NaN;
    }

    /// <summary>Width of the tyre, or the least width that a spare tube is made for; 15 to 150 mm.</summary>
    public Length? TyreWidth
    {
        get => Si.Length(_widthLowM);
        init => _widthLowM = value is { } v ? Guard.InRange(v.Millimeters, 15, 150, "mm", nameof(TyreWidth)) / 1000 : double.NaN;
    }

    /// <summary>Largest width that a spare tube is made for; 15 to 150 mm.</summary>
    public Length? LargestTyreWidth
    {
        get => Si.Length(_widthHighM);
        init => _widthHighM = value is { } v ? Guard.InRange(v.Millimeters, 15, 150, "mm", nameof(LargestTyreWidth)) / 1000 : double.NaN;
    }

    internal double ValveMm => _valveM * 1000;

    internal double RimDepthMm => _rimDepthM * 1000;

    internal double WidthLowMm => _widthLowM * 1000;

    internal double WidthHighMm => _widthHighM * 1000;
}
