using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>How much of a pack's warm energy comes out at a cell temperature.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ColdPoint
{
    private readonly double _cellC;

    /// <summary>Makes a point.</summary>
    /// <param name="cellTemperature">Of the cells, -60 to 80 °C.</param>
    /// <param name="usableFraction">[share of 1, 0 to 1.1] Of the energy that comes out at room temperature.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public ColdPoint(Temperature cellTemperature, double usableFraction)
    {
        _cellC = Guard.InRange(cellTemperature.DegreesCelsius, -60, 80, "C", nameof(cellTemperature));
        UsableFraction = Guard.InRange(usableFraction, 0, 1.1, "(a share of 1)");
    }

    /// <summary>Of the cells.</summary>
    public Temperature CellTemperature => Temperature.FromDegreesCelsius(_cellC);

    /// <summary>Share of the warm energy.</summary>
    public double UsableFraction { get; }

    internal double CellC => _cellC;
}
