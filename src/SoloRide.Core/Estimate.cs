using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>
/// A value that is not known exactly: a typical value and a range that holds it with a stated level.
/// </summary>
/// <typeparam name="T">A UnitsNet quantity, <see cref="TimeSpan"/> or <see cref="DateTimeOffset"/>.</typeparam>
/// <remarks>
/// Ranges are P10 to P90 (level 0.8) unless said otherwise. Quantities are brought to their base SI unit on creation, so that
/// equal estimates compare equal. Immutable; safe to share between threads.
/// </remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record Estimate<T>
    where T : struct, IComparable<T>
{
    /// <summary>Makes an estimate.</summary>
    /// <param name="typical">The middle value (median where one is known).</param>
    /// <param name="low">The lower end; not above <paramref name="typical"/>.</param>
    /// <param name="high">The upper end; not below <paramref name="typical"/>.</param>
    /// <param name="level">[share of 1, 0 to 1] How often the range holds the truth; 0.8 means P10 to P90. 1 marks an exact value or a hard bound.</param>
    /// <exception cref="ArgumentOutOfRangeException">The level is outside 0 to 1.</exception>
    /// <exception cref="ArgumentException">The values are not in ascending order, or not finite.</exception>
    public Estimate(T typical, T low, T high, double level = 0.8)
    {
        Level = Guard.Fraction(level);
        Typical = Normal(typical, nameof(typical));
        Low = Normal(low, nameof(low));
        High = Normal(high, nameof(high));
        if (Low.CompareTo(Typical) > 0 || Typical.CompareTo(High) > 0)
        {
            throw new ArgumentException(
                string.Create(CultureInfo.InvariantCulture, $"An estimate needs low <= typical <= high; got {low}, {typical}, {high}."), nameof(low));
        }
    }

    /// <summary>The middle value.</summary>
    public T Typical { get; }

    /// <summary>The lower end of the range.</summary>
    public T Low { get; }

    /// <summary>The upper end of the range.</summary>
    public T High { get; }

    /// <summary>How often the range holds the truth [share of 1].</summary>
    public double Level { get; }

    /// <summary>Whether the range has no width.</summary>
    public bool IsExact => Low.CompareTo(High) == 0;

    /// <summary>The range in words, such as <c>1 150 m (1 090 to 1 220)</c>; invariant culture.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString()
        => IsExact ? EstimateText.One(Typical) : $"{EstimateText.One(Typical)} ({EstimateText.One(Low)} to {EstimateText.One(High)})";

    private static T Normal(T value, string name)
    {
        if (value is IQuantity quantity)
        {
            if (!double.IsFinite((double)quantity.Value))
            {
                throw new ArgumentException($"{name} must be finite.", name);
            }

            return (T)quantity.ToUnit(quantity.QuantityInfo.BaseUnitInfo.Value);
        }

        return value;
    }
}

/// <summary>Short ways to make an <see cref="Estimate{T}"/>.</summary>
public static class Estimate
{
    /// <summary>A value that is known exactly.</summary>
    /// <typeparam name="T">As in <see cref="Estimate{T}"/>.</typeparam>
    /// <param name="value">The value.</param>
    /// <returns>An estimate without width, level 1.</returns>
    public static Estimate<T> Exact<T>(T value)
        where T : struct, IComparable<T>
        => new(value, value, value, 1);

    /// <summary>An estimate from a typical value and its range.</summary>
    /// <typeparam name="T">As in <see cref="Estimate{T}"/>.</typeparam>
    /// <param name="typical">The middle value.</param>
    /// <param name="low">The lower end.</param>
    /// <param name="high">The upper end.</param>
    /// <param name="level">[share of 1] How often the range holds the truth; 0.8 means P10 to P90.</param>
    /// <returns>The estimate.</returns>
    /// <exception cref="ArgumentException">The values are not ascending or not finite.</exception>
    public static Estimate<T> Of<T>(T typical, T low, T high, double level = 0.8)
        where T : struct, IComparable<T>
        => new(typical, low, high, level);
}

internal static class EstimateText
{
    public static string One<T>(T value) => value switch
    {
        TimeSpan span => Text.Span(span),
        DateTimeOffset instant => Text.Clock(instant),
        Length l when Math.Abs(l.Meters) >= 10_000 => Text.F(l.Kilometers, 1) + " km",
        Length l => Text.Thousands(l.Meters) + " m",
        Volume v => Text.F(v.Liters, 2) + " L",
        Mass m when Math.Abs(m.Kilograms) < 0.1 => Text.F(m.Milligrams, 0) + " mg",
        Mass m => Text.F(m.Kilograms, 2) + " kg",
        Energy e when Math.Abs(e.Kilojoules) >= 400 => Text.Thousands(e.Kilocalories) + " kcal",
        Energy e => Text.F(e.WattHours, 2) + " Wh",
        Power p => Text.F((double)p.Watts, 0) + " W",
        Speed s => Text.F(s.KilometersPerHour, 1) + " km/h",
        Temperature t => Text.F(t.DegreesCelsius, 1) + " C",
        VolumeFlow f => Text.F(f.LitersPerHour, 2) + " L/h",
        MassFlow f => Text.F(1000 * f.GramsPerHour, 0) + " mg/h",
        Molarity c => Text.F(c.MillimolesPerLiter, 0) + " mmol/L",
        Ratio r => Text.F(r.Percent, 0) + " %",
        IFormattable f => f.ToString(null, CultureInfo.InvariantCulture),
        _ => value?.ToString() ?? "",
    };
}
