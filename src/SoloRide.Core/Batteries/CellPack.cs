using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>The cells inside a device or bank: printed capacity, what time and use have left of it, and what the cold lets out.</summary>
/// <remarks>
/// Capacity is counted in watt-hours: milliamp-hours at different voltages do not compare. Immutable; safe to share between threads.
/// </remarks>
[Entry]
public sealed record CellPack
{
    private readonly double _ratedAh;
    private readonly double _nominalV;
    private readonly double _cutOffV;

    /// <summary>Makes a pack.</summary>
    /// <param name="chemistry">What the cells are made of.</param>
    /// <param name="ratedMah">[mAh, 10 to 1 000 000] Printed capacity.</param>
    /// <param name="nominalV">[V, 1 to 100] Voltage that the printed capacity goes with: 3.6 to 3.85 for one lithium-ion cell.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public CellPack(CellChemistry chemistry, double ratedMah, double nominalV)
    {
        Chemistry = Guard.Defined(chemistry);
        _ratedAh = Guard.InRange(ratedMah, 10, 1_000_000, "mAh") / 1000;
        _nominalV = Guard.InRange(nominalV, 1, 100, "V");
        _cutOffV = CellKernel.DefaultCutOffV(chemistry);
        SelfDischargePerMonthFraction = CellKernel.SelfDischargePerMonth(chemistry);
    }

    /// <summary>What the cells are made of.</summary>
    public CellChemistry Chemistry { get; }

    /// <summary>Printed capacity.</summary>
    public ElectricCharge RatedCapacity => ElectricCharge.FromAmpereHours(_ratedAh);

    /// <summary>Voltage that the printed capacity goes with.</summary>
    public ElectricPotential NominalVoltage => ElectricPotential.FromVolts(_nominalV);

    /// <summary>Printed energy.</summary>
    public Energy RatedEnergy => Energy.FromWattHours(RatedWh);

    /// <summary>Share of the printed capacity that a new pack really has [0.05 to 1.1]; 1 for a device's own pack, 0.925 is typical of good loose cells, cheap ones fall below 0.3.</summary>
    public double HonestFraction { get; init => field = Guard.InRange(value, 0.05, 1.1, "(a share of 1)", nameof(HonestFraction)); } = 1;

    /// <summary>Share of the new capacity that age and cycles have left [0.05 to 1].</summary>
    public double HealthFraction { get; init => field = Guard.InRange(value, 0.05, 1, "(a share of 1)", nameof(HealthFraction)); } = 1;

    /// <summary>Resistance of the cells against new ones [1 to 5]; 1 unless stated, <see cref="PackAge.ResistanceFactor"/> for an aged pack. Counts for lithium-ion cells.</summary>
    public double ResistanceFactor { get; init => field = Guard.InRange(value, 1, 5, "(against new)", nameof(ResistanceFactor)); } = 1;

    /// <summary>Half-width of the P10 to P90 range of the capacity around its typical value [0 to 0.5].</summary>
    public double CapacitySpreadFraction { get; init => field = Guard.InRange(value, 0, 0.5, "(a share of 1)", nameof(CapacitySpreadFraction)); } = 0.06;

    /// <summary>Charge lost per month of lying [0 to 0.9].</summary>
    public double SelfDischargePerMonthFraction { get; init => field = Guard.InRange(value, 0, 0.9, "(a share of 1)", nameof(SelfDischargePerMonthFraction)); }

    /// <summary>Voltage of one cell at which the device switches itself off; in the cold it matters as much as the temperature. Lithium-ion 3.0 V unless stated; 0.7 to 3.6 V, iron phosphate (2.5 V unless stated) to 3.0 V, above which its flat voltage was not measured.</summary>
    public ElectricPotential CutOffVoltage
    {
        get => ElectricPotential.FromVolts(_cutOffV);
        init => _cutOffV = Guard.InRange(value.Volts, 0.7, Chemistry == CellChemistry.LithiumIronPhosphate ? OtherCellKernel.PhosphateHighestV : 3.6, "V", nameof(CutOffVoltage));
    }

    /// <summary>
    /// Own table of the share of the warm energy that comes out at a cell temperature; null: the built-in model, which for primary lithium,
    /// nickel-metal hydride and alkaline is an assumption without a measured anchor. Between its points linear, outside held with a finding.
    /// </summary>
    public IReadOnlyList<ColdPoint>? ColdTable
    {
        get;
        init
        {
            if (value is null)
            {
                field = null;
                return;
            }

            ColdPoint[] points = [.. value.OrderBy(p => p.CellTemperature.DegreesCelsius)];
            if (points.Length == 0)
            {
                throw new ArgumentException("ColdTable needs at least one point.", nameof(ColdTable));
            }

            for (int i = 1; i < points.Length; i++)
            {
                if (points[i].CellTemperature.DegreesCelsius - points[i - 1].CellTemperature.DegreesCelsius < 0.01)
                {
                    throw new ArgumentException($"ColdTable holds two points at {Text.F(points[i].CellTemperature.DegreesCelsius, 1)} C; temperatures must differ.", nameof(ColdTable));
                }
            }

            field = points;
        }
    }

    internal double RatedWh => _ratedAh * _nominalV;

    internal double RatedAh => _ratedAh;

    internal double NominalV => _nominalV;

    internal double CutOffV => _cutOffV;

    /// <summary>Energy of a full pack at room temperature and gentle drain.</summary>
    internal double FullWh => RatedWh * HonestFraction * HealthFraction;

    /// <summary>One lithium-ion cell or cells in parallel.</summary>
    /// <param name="ratedMah">[mAh, 10 to 1 000 000] Printed capacity.</param>
    /// <param name="nominalV">[V] 3.6 to 3.85.</param>
    /// <returns>The pack.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static CellPack LithiumIon(double ratedMah, double nominalV = 3.7) => new(CellChemistry.LithiumNickel, ratedMah, nominalV);

    /// <summary>Energy that a charged pack gives before the device switches itself off.</summary>
    /// <param name="cellTemperature">Of the cells, -40 to 60 °C.</param>
    /// <param name="load">Mean power drawn, 0 or more.</param>
    /// <param name="chargeFraction">State of charge at the start [share of 1].</param>
    /// <param name="idle">How long the pack has lain since it was charged.</param>
    /// <returns>P10 to P90; 0 when the cold leaves nothing above the cut-off voltage.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public Estimate<Energy> UsableEnergy(Temperature cellTemperature, Power load, double chargeFraction = 1, TimeSpan idle = default)
    {
        double tC = Guard.InRange(cellTemperature.DegreesCelsius, -40, 60, "C", nameof(cellTemperature));
        double loadW = Guard.NotNegative((double)load.Watts, "W", nameof(load));
        double soc = Guard.Fraction(chargeFraction);
        double left = CellKernel.SelfDischargeLeft(SelfDischargePerMonthFraction, Guard.NotNegative(idle).TotalDays);
        CellShare share = Share(tC, loadW);
        double Wh(double capacity) => Math.Max(0, FullWh * capacity * ((soc * left) - share.Floor) * share.Efficiency);
        return Estimate.Of(
            Energy.FromWattHours(Wh(1)), Energy.FromWattHours(Wh(1 - CapacitySpreadFraction)), Energy.FromWattHours(Wh(1 + CapacitySpreadFraction)));
    }

    /// <summary>
    /// Resistance of the pack after ten seconds of load, by temperature, charge and load: what makes the voltage sag in the cold. Measured on one
    /// nickel-rich cell from -20 to 25 °C and 0.5C to 2C and scaled by size; cells in series are counted from the nominal voltage.
    /// </summary>
    /// <param name="cellTemperature">Of the cells, -40 to 60 °C; held at 25 °C above, carried on below -20 °C.</param>
    /// <param name="chargeFraction">State of charge [share of 1].</param>
    /// <param name="load">Mean power drawn, 0 or more; held to 0.5C to 2C.</param>
    /// <returns>The resistance; null for chemistries that were not measured.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public ElectricResistance? Resistance(Temperature cellTemperature, double chargeFraction = 0.5, Power load = default)
    {
        double tC = Guard.InRange(cellTemperature.DegreesCelsius, -40, 60, "C", nameof(cellTemperature));
        double soc = Guard.Fraction(chargeFraction);
        double loadW = Guard.NotNegative((double)load.Watts, "W", nameof(load));
        double series = Math.Max(1, Math.Round(_nominalV / NickelCellKernel.NominalV));
        return Chemistry == CellChemistry.LithiumNickel
            ? ElectricResistance.FromOhms(series * ResistanceFactor * ResistanceKernel.Ohm(Math.Min(tC, 25), 1 - soc, loadW / FullWh, _ratedAh * HonestFraction))
            : null;
    }

    /// <summary>What the cold and the load hold back and lose.</summary>
    internal CellShare Share(double cellC, double loadW)
        => ColdTable is { } table ? CellKernel.Whole(CellKernel.FromTable(table, cellC)) : CellKernel.Share(Chemistry, cellC, loadW / FullWh, _cutOffV, ResistanceFactor);

    /// <summary>Whether the built-in cold behaviour rests on measured cells.</summary>
    internal bool IsAnchored => Chemistry is CellChemistry.LithiumNickel or CellChemistry.LithiumIronPhosphate;
}
