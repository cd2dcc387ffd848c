using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Something with a battery that the ride depends on. The 406 MHz distress beacon is not one of these: see <see cref="DistressBeacon"/>.</summary>
/// <remarks>Immutable.</remarks>
public sealed record Device
{
    private readonly double _intakeW = 7.5;

    /// <summary>Makes a device.</summary>
    /// <param name="name">Its name, unique within a request.</param>
    /// <param name="kind">What it is for.</param>
    /// <param name="pack">Its cells.</param>
    /// <param name="modes">How it can run, at least one; the first is the usual one.</param>
    /// <exception cref="ArgumentException">No name, no mode, or two modes of one name.</exception>
    public Device(string name, DeviceKind kind, CellPack pack, params IReadOnlyList<DeviceMode> modes)
    {
        Name = Guard.NotEmpty(name);
        Kind = Guard.Defined(kind);
        Pack = Guard.NotNull(pack);
        Modes = [.. Guard.NotNull(modes)];
        if (Modes.Count == 0)
        {
            throw new ArgumentException($"Device '{name}' needs at least one mode.", nameof(modes));
        }

        if (Modes.GroupBy(m => m.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"Device '{name}' has two modes named '{twice.Key}'.", nameof(modes));
        }

        TopUp = kind switch
        {
            DeviceKind.HeadLamp or DeviceKind.BarLamp or DeviceKind.RearLamp => TopUpRule.OnlyWhenOff,
            DeviceKind.DriveBattery => TopUpRule.Never,
            _ => TopUpRule.WhileInUse,
        };
        if (pack.Chemistry is CellChemistry.PrimaryLithium or CellChemistry.Alkaline)
        {
            TopUp = TopUpRule.Never;
        }

        Carried = kind is DeviceKind.Phone ? CarryPlace.Pocket : kind is DeviceKind.Messenger or DeviceKind.Other ? CarryPlace.Pack : CarryPlace.Exposed;
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What it is for.</summary>
    public DeviceKind Kind { get; }

    /// <summary>Its cells.</summary>
    public CellPack Pack { get; init; }

    /// <summary>How it can run; the first is the usual one.</summary>
    public IReadOnlyList<DeviceMode> Modes { get; }

    /// <summary>State of charge when the pack was last charged or read [share of 1]; 1 unless stated.</summary>
    public double StartChargeFraction { get; init => field = Guard.Fraction(value, nameof(StartChargeFraction)); } = 1;

    /// <summary>How long it has lain since then; self-discharge counts.</summary>
    public TimeSpan IdleSince { get; init => field = Guard.NotNegative(value, nameof(IdleSince)); }

    /// <summary>Where it is carried. Unless stated: phone in a pocket, messenger and other things in the pack, the rest exposed.</summary>
    public CarryPlace Carried { get; init => field = Guard.Defined(value, nameof(Carried)); }

    /// <summary>When it can take charge from the bank. Unless stated: lamps only when off, single-use cells and drive batteries never.</summary>
    public TopUpRule TopUp { get; init => field = Guard.Defined(value, nameof(TopUp)); }

    /// <summary>Most power it takes from the bank's port; 0.1 to 240 W, 7.5 W unless stated.</summary>
    public Power Intake
    {
        get => Power.FromWatts(_intakeW);
        init => _intakeW = Guard.InRange((double)value.Watts, 0.1, 240, "W", nameof(Intake));
    }

    /// <summary>Share of the energy at the bank's port that reaches the cell: cable and charger [0.3 to 1].</summary>
    [Source("assumption-charging-efficiency", "cable 0.93 to 0.99, charger 0.80 to 0.95")]
    public double ChargingEfficiencyFraction { get; init => field = Guard.InRange(value, 0.3, 1, "(a share of 1)", nameof(ChargingEfficiencyFraction)); } = 0.87;

    /// <summary>Place in the order of safety, 1 first; null: messenger 1, head and bar lamp 2, phone 3, navigation 4, the rest 5.</summary>
    public int? SafetyOrder { get; init => field = value is { } v ? Guard.InRange(v, 1, 99, "", nameof(SafetyOrder)) : null; }

    /// <summary>Weight against devices of the same place in the order; above 0, 1 unless stated.</summary>
    public double WeightFactor { get; init => field = Guard.InRange(value, 0.001, 1000, "(factor)", nameof(WeightFactor)); } = 1;

    /// <summary>A phone with ranges of our own: recording in flight mode (first), standby, searching for a network, map on the screen.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="ratedMah">[mAh] Printed capacity, at 3.85 V.</param>
    /// <returns>The phone; no draw of it has a measured anchor.</returns>
    /// <exception cref="ArgumentException">No name, or a capacity outside 10 to 1 000 000 mAh.</exception>
    [Source("assumption-device-draws", "phone")]
    public static Device Phone(string name, double ratedMah) => new(
        name, DeviceKind.Phone, CellPack.LithiumIon(ratedMah, 3.85),
        DeviceMode.Of("recording", ModeUse.Tracking, 0.08, 0.15, 0.30),
        DeviceMode.Of("standby", ModeUse.Standby, 0.015, 0.025, 0.04),
        DeviceMode.Of("searching", ModeUse.Searching, 0.10, 0.25, 0.50),
        DeviceMode.Of("map", ModeUse.Navigating, 1.0, 1.5, 2.5));

    /// <summary>A satellite messenger with ranges of our own: tracking (first), standby, sending.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="ratedMah">[mAh] Printed capacity, at 3.7 V.</param>
    /// <returns>The messenger; no draw of it has a measured anchor.</returns>
    /// <exception cref="ArgumentException">No name, or a capacity outside 10 to 1 000 000 mAh.</exception>
    [Source("assumption-device-draws", "messenger")]
    public static Device Messenger(string name, double ratedMah) => new(
        name, DeviceKind.Messenger, CellPack.LithiumIon(ratedMah),
        DeviceMode.Of("tracking", ModeUse.Tracking, 0.02, 0.05, 0.12),
        DeviceMode.Of("standby", ModeUse.Standby, 0.003, 0.006, 0.015),
        DeviceMode.Of("sending", ModeUse.Messaging, 1.0, 1.5, 3.0));

    /// <summary>A navigation computer with ranges of our own: map (first), recording with the screen off.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="ratedMah">[mAh] Printed capacity, at 3.7 V.</param>
    /// <returns>The computer; no draw of it has a measured anchor.</returns>
    /// <exception cref="ArgumentException">No name, or a capacity outside 10 to 1 000 000 mAh.</exception>
    [Source("assumption-device-draws", "navigation computer")]
    public static Device NavigationComputer(string name, double ratedMah) => new(
        name, DeviceKind.NavigationComputer, CellPack.LithiumIon(ratedMah),
        DeviceMode.Of("map", ModeUse.Navigating, 0.2, 0.35, 0.6),
        DeviceMode.Of("recording", ModeUse.Tracking, 0.1, 0.2, 0.3));

    /// <summary>A lamp.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="kind">Head, bar or rear lamp.</param>
    /// <param name="pack">Its cells.</param>
    /// <param name="modes">Lit modes; the first is the usual one in the dark.</param>
    /// <returns>The lamp.</returns>
    /// <exception cref="ArgumentException">No name or modes, or not a kind of lamp.</exception>
    public static Device Lamp(string name, DeviceKind kind, CellPack pack, params IReadOnlyList<DeviceMode> modes)
        => kind is DeviceKind.HeadLamp or DeviceKind.BarLamp or DeviceKind.RearLamp
            ? new(name, kind, pack, modes)
            : throw new ArgumentException($"{kind} is no kind of lamp.", nameof(kind));

    internal double IntakeW => _intakeW;

    internal bool IsLamp => Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp or DeviceKind.RearLamp;

    internal int Order => SafetyOrder ?? Kind switch
    {
        DeviceKind.Messenger => 1,
        DeviceKind.HeadLamp or DeviceKind.BarLamp => 2,
        DeviceKind.Phone => 3,
        DeviceKind.NavigationComputer => 4,
        _ => 5,
    };

    internal int ModeIndex(string name)
    {
        for (int i = 0; i < Modes.Count; i++)
        {
            if (string.Equals(Modes[i].Name, name, StringComparison.Ordinal))
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>The mode a device runs in when the timeline names none; -1 is off.</summary>
    internal int DefaultMode(bool isDark)
    {
        if (!IsLamp)
        {
            return 0;
        }

        if (!isDark)
        {
            return -1;
        }

        for (int i = 0; i < Modes.Count; i++)
        {
            if (Modes[i].Use == ModeUse.Lighting)
            {
                return i;
            }
        }

        return 0;
    }
}
