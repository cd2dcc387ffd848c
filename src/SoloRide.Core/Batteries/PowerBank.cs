using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>A power bank: what its printed capacity is worth at the port and in a device.</summary>
/// <remarks>Immutable.</remarks>
[Entry]
public sealed record PowerBank
{
    private readonly double _idleW = 0.001;
    private readonly double _portW = 15;
    private readonly double _switchOffW = 0.25;

    /// <summary>Makes a bank.</summary>
    /// <param name="ratedMah">[mAh, 100 to 1 000 000] Printed capacity.</param>
    /// <param name="cellV">[V, 3 to 4] Voltage of its cells that the printed capacity goes with.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public PowerBank(double ratedMah, double cellV = 3.7)
        => Pack = CellPack.LithiumIon(Guard.InRange(ratedMah, 100, 1_000_000, "mAh"), Guard.InRange(cellV, 3, 4, "V")) with
        {
            HonestFraction = BatteriesConstants.HonestFraction,
        };

    /// <summary>Name in results.</summary>
    public string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); } = "power bank";

    /// <summary>Its cells; the honest share is 0.925 unless stated.</summary>
    public CellPack Pack { get; init => field = Guard.NotNull(value, nameof(Pack)); }

    /// <summary>State of charge when it was last charged [share of 1].</summary>
    public double StartChargeFraction { get; init => field = Guard.Fraction(value, nameof(StartChargeFraction)); } = 1;

    /// <summary>How long it has lain since then.</summary>
    public TimeSpan IdleSince { get; init => field = Guard.NotNegative(value, nameof(IdleSince)); }

    /// <summary>Share of the cells' energy that reaches the port [0.5 to 1]; 0.80 to 0.95 are usual.</summary>
    [Source("assumption-charging-efficiency", "converter 0.80 to 0.95")]
    public double ConverterEfficiencyFraction { get; init => field = Guard.InRange(value, 0.5, 1, "(a share of 1)", nameof(ConverterEfficiencyFraction)); } = 0.88;

    /// <summary>Own use while lying; 0 to 1 W, 1 mW unless stated.</summary>
    [Source("assumption-bank-idle", "0.2 to 5 mW")]
    public Power IdlePower
    {
        get => Power.FromWatts(_idleW);
        init => _idleW = Guard.InRange((double)value.Watts, 0, 1, "W", nameof(IdlePower));
    }

    /// <summary>Most power of one port; 0.5 to 240 W, 15 W unless stated.</summary>
    public Power PortPower
    {
        get => Power.FromWatts(_portW);
        init => _portW = Guard.InRange((double)value.Watts, 0.5, 240, "W", nameof(PortPower));
    }

    /// <summary>Ports that can be used at once, 1 to 8.</summary>
    public int Ports { get; init => field = Guard.InRange(value, 1, 8, "", nameof(Ports)); } = 1;

    /// <summary>Below this draw the bank switches its port off; 0 to 5 W, 0.25 W unless stated.</summary>
    [Source("assumption-bank-idle", "many banks switch off below 50 to 100 mA")]
    public Power SwitchOffBelow
    {
        get => Power.FromWatts(_switchOffW);
        init => _switchOffW = Guard.InRange((double)value.Watts, 0, 5, "W", nameof(SwitchOffBelow));
    }

    /// <summary>Where it is carried; in the pack unless stated.</summary>
    public CarryPlace Carried { get; init => field = Guard.Defined(value, nameof(Carried)); } = CarryPlace.Pack;

    /// <summary>What the usual rules of air travel say; check with the carrier, whose rules decide.</summary>
    public AirCarriage AirTravel => PowerBankKernel.Air(Pack.RatedWh);

    internal double IdleW => _idleW;

    internal double PortW => _portW;

    internal double SwitchOffW => _switchOffW;

    /// <summary>Energy that its port gives in all.</summary>
    /// <param name="cellTemperature">Of its cells, -40 to 60 °C.</param>
    /// <returns>P10 to P90.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public Estimate<Energy> EnergyAtPort(Temperature cellTemperature)
    {
        double tC = Guard.InRange(cellTemperature.DegreesCelsius, -40, 60, "C", nameof(cellTemperature));
        double typical = PortWh(tC, 1, ConverterEfficiencyFraction);
        double low = PortWh(tC, 1 - Pack.CapacitySpreadFraction, Math.Max(0.5, ConverterEfficiencyFraction - PowerBankKernel.ConverterSpread));
        double high = PortWh(tC, 1 + Pack.CapacitySpreadFraction, Math.Min(1, ConverterEfficiencyFraction + PowerBankKernel.ConverterSpread));
        return Estimate.Of(Energy.FromWattHours(typical), Energy.FromWattHours(low), Energy.FromWattHours(high));
    }

    /// <summary>How many full charges of a device it gives.</summary>
    /// <param name="device">The device.</param>
    /// <param name="cellTemperature">Of the bank's cells, -40 to 60 °C.</param>
    /// <returns>Full charges [1], P10 to P90; a ratio above 1 is more than one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public Estimate<Ratio> FullCharges(Device device, Temperature cellTemperature)
    {
        Guard.NotNull(device);
        Estimate<Energy> port = EnergyAtPort(cellTemperature);
        double per = device.ChargingEfficiencyFraction / device.Pack.FullWh;
        return Estimate.Of(
            Ratio.FromDecimalFractions(port.Typical.WattHours * per), Ratio.FromDecimalFractions(port.Low.WattHours * per), Ratio.FromDecimalFractions(port.High.WattHours * per));
    }

    /// <summary>Looks at the printed claim: more energy than cells of its mass can hold is not believed.</summary>
    /// <param name="mass">Of the bank; 10 g to 20 kg.</param>
    /// <returns>Findings; always one for air travel.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The mass is outside its range.</exception>
    public IReadOnlyList<Finding> CheckClaim(Mass mass)
    {
        double kg = Guard.InRange(mass.Kilograms, 0.01, 20, "kg", nameof(mass));
        var findings = new List<Finding>();
        double perKg = Pack.RatedWh / kg;
        if (perKg > PowerBankKernel.MostWhPerKg)
        {
            findings.Add(new Finding(
                BatteriesFindingCodes.ClaimImplausible, FindingSeverity.Warning, Name,
                $"{Text.F(Pack.RatedWh, 0)} Wh in {Text.F(kg, 2)} kg is {Text.F(perKg, 0)} Wh/kg; whole banks reach about {Text.F(PowerBankKernel.MostWhPerKg, 0)} Wh/kg at most. Expect less than printed."));
        }

        findings.Add(new Finding(
            BatteriesFindingCodes.Carrier, FindingSeverity.Note, Name,
            AirTravel switch
            {
                AirCarriage.CarryOn => "Cabin baggage only, terminals protected; check with the carrier.",
                AirCarriage.WithApproval => "Above 100 Wh: only with the operator's approval, in the cabin, at most two; check with the carrier.",
                _ => "Above 160 Wh: not for passengers by the usual rules; check with the carrier.",
            }));
        return findings;
    }

    internal double PortWh(double cellC, double capacity, double converter)
    {
        CellShare share = Pack.Share(cellC, Math.Min(_portW, PowerBankKernel.MostRateC * Pack.FullWh));
        double left = CellKernel.SelfDischargeLeft(Pack.SelfDischargePerMonthFraction, IdleSince.TotalDays);
        double cells = Pack.FullWh * capacity * Math.Max(0, (StartChargeFraction * left) - share.Floor) * share.Efficiency;
        return PowerBankKernel.AtPortWh(cells, _idleW, IdleSince.TotalHours, converter);
    }
}
