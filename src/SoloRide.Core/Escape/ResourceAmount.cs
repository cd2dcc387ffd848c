using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>An amount of something that can run out, in the unit of its kind.</summary>
/// <remarks><c>default</c> is no water. Immutable.</remarks>
public readonly record struct ResourceAmount
{
    private ResourceAmount(ResourceKind kind, double amount)
    {
        Kind = kind;
        Value = amount;
    }

    /// <summary>What it is an amount of.</summary>
    public ResourceKind Kind { get; }

    /// <summary>As a volume; null when it is no water.</summary>
    public Volume? Volume => Kind == ResourceKind.Water ? UnitsNet.Volume.FromLiters(Value) : null;

    /// <summary>As an energy; null when it is neither food nor charge.</summary>
    public Energy? Energy => Kind switch
    {
        ResourceKind.Food => UnitsNet.Energy.FromKilocalories(Value),
        ResourceKind.Charge => UnitsNet.Energy.FromWattHours(Value),
        _ => null,
    };

    /// <summary>As a span of time; null when it is neither light nor time.</summary>
    public TimeSpan? Span => Kind is ResourceKind.Light or ResourceKind.Time && Math.Abs(Value) < TimeSpan.MaxValue.TotalHours ? TimeSpan.FromHours(Value) : null;

    internal double Value { get; }

    /// <summary>Drinking water.</summary>
    /// <param name="volume">0 or more.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static ResourceAmount Water(Volume volume) => Of(ResourceKind.Water, volume.Liters);

    /// <summary>Lamp time at the level needed.</summary>
    /// <param name="time">0 or more.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public static ResourceAmount Light(TimeSpan time) => Of(ResourceKind.Light, time.TotalHours);

    /// <summary>Food energy.</summary>
    /// <param name="energy">0 or more.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static ResourceAmount Food(Energy energy) => Of(ResourceKind.Food, energy.Kilocalories);

    /// <summary>Charge of the means of calling and finding the way.</summary>
    /// <param name="energy">0 or more.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static ResourceAmount Charge(Energy energy) => Of(ResourceKind.Charge, energy.WattHours);

    /// <summary>Time until a deadline.</summary>
    /// <param name="time">0 or more.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public static ResourceAmount Time(TimeSpan time) => Of(ResourceKind.Time, time.TotalHours);

    /// <summary>With its unit, such as <c>2.10 L</c>.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Kind switch
    {
        ResourceKind.Water => Text.F(Value, 2) + " L",
        ResourceKind.Food => Text.Thousands(Value) + " kcal",
        ResourceKind.Charge => Text.F(Value, 1) + " Wh",
        _ => Text.F(Value, 2) + " h",
    };

    internal static ResourceAmount Of(ResourceKind kind, double amount) => new(kind, Guard.NotNegative(amount, Unit(kind)));

    internal static string Unit(ResourceKind kind) => kind switch
    {
        ResourceKind.Water => "L",
        ResourceKind.Food => "kcal",
        ResourceKind.Charge => "Wh",
        _ => "h",
    };
}
