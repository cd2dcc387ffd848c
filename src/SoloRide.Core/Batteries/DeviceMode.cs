using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>One way in which a device runs, with the power it draws from its cells.</summary>
/// <remarks>Power is a range (P10 to P90): catalogues print none, and your own measurement beats any default. Immutable.</remarks>
public sealed record DeviceMode
{
    private readonly double _lowW;
    private readonly double _typicalW;
    private readonly double _highW;

    /// <summary>Makes a mode.</summary>
    /// <param name="name">Its name, unique within the device.</param>
    /// <param name="use">What it is used for.</param>
    /// <param name="power">Drawn from the cells, 0 to 2 000 W.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The power is outside 0 to 2 000 W.</exception>
    public DeviceMode(string name, ModeUse use, Estimate<Power> power)
    {
        Name = Guard.NotEmpty(name);
        Use = Guard.Defined(use);
        Guard.NotNull(power);
        _lowW = Guard.InRange((double)power.Low.Watts, 0, 2000, "W", nameof(power));
        _typicalW = Guard.InRange((double)power.Typical.Watts, 0, 2000, "W", nameof(power));
        _highW = Guard.InRange((double)power.High.Watts, 0, 2000, "W", nameof(power));
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>What it is used for.</summary>
    public ModeUse Use { get; }

    /// <summary>Power drawn from the cells.</summary>
    public Estimate<Power> Power => Estimate.Of(UnitsNet.Power.FromWatts(_typicalW), UnitsNet.Power.FromWatts(_lowW), UnitsNet.Power.FromWatts(_highW), 0.8);

    /// <summary>What a lamp gives in this mode; null for modes without light.</summary>
    public LampOutput? Light { get; init; }

    internal double LowW => _lowW;

    internal double TypicalW => _typicalW;

    internal double HighW => _highW;

    /// <summary>A mode whose power range is given in watts.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="use">What it is used for.</param>
    /// <param name="lowW">[W] P10.</param>
    /// <param name="typicalW">[W] Median.</param>
    /// <param name="highW">[W] P90.</param>
    /// <returns>The mode.</returns>
    /// <exception cref="ArgumentException">The values are not ascending or outside 0 to 2 000 W.</exception>
    public static DeviceMode Of(string name, ModeUse use, double lowW, double typicalW, double highW)
        => new(name, use, Estimate.Of(
            UnitsNet.Power.FromWatts(Guard.InRange(typicalW, 0, 2000, "W")),
            UnitsNet.Power.FromWatts(Guard.InRange(lowW, 0, 2000, "W")),
            UnitsNet.Power.FromWatts(Guard.InRange(highW, 0, 2000, "W")),
            0.8));

    /// <summary>A lit lamp.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="light">What it gives.</param>
    /// <param name="powerW">[W, above 0] Measured draw; null: light output over an assumed 100 lm/W (70 to 150).</param>
    /// <returns>The mode.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The power is not above 0 W.</exception>
    public static DeviceMode Lit(string name, LampOutput light, double? powerW = null)
    {
        Guard.NotNull(light);
        if (powerW is { } w)
        {
            Guard.Positive(w, "W", nameof(powerW));
            return Of(name, ModeUse.Lighting, w * (1 - BatteriesConstants.MeasuredPowerSpread), w, w * (1 + BatteriesConstants.MeasuredPowerSpread)) with { Light = light };
        }

        return Of(
            name, ModeUse.Lighting,
            light.FluxLm / BatteriesConstants.LampEfficacyHighLmPerW,
            light.FluxLm / BatteriesConstants.LampEfficacyTypicalLmPerW,
            light.FluxLm / BatteriesConstants.LampEfficacyLowLmPerW) with { Light = light };
    }
}
