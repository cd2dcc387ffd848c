using System.Globalization;
using System.Runtime.CompilerServices;

namespace SoloRide.Internal;

/// <summary>Checks of arguments; every message says what, the value, the allowed range and the unit.</summary>
internal static class Guard
{
    public static T NotNull<T>(T? value, [CallerArgumentExpression(nameof(value))] string name = "")
        where T : class
        => value ?? throw new ArgumentNullException(name);

    public static string NotEmpty(string? value, [CallerArgumentExpression(nameof(value))] string name = "")
        => string.IsNullOrWhiteSpace(value)
            ? throw new ArgumentException($"{name} must hold text.", name)
            : value;

    public static double Finite(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number [{unit}].");

    /// <summary>Lowest and highest are allowed.</summary>
    public static double InRange(double value, double lowest, double highest, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
        => value >= lowest && value <= highest
            ? value
            : throw new ArgumentOutOfRangeException(
                name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is {value} {unit}; allowed are {lowest} to {highest} {unit}."));

    public static double Positive(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
        => value > 0 && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(
                name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is {value} {unit}; it must be above 0 {unit} and finite."));

    public static double NotNegative(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
        => value >= 0 && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(
                name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is {value} {unit}; it must be at least 0 {unit} and finite."));

    public static double Fraction(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => InRange(value, 0, 1, "(a share of 1)", name);

    public static int InRange(int value, int lowest, int highest, string unit, [CallerArgumentExpression(nameof(value))] string name = "")
        => value >= lowest && value <= highest
            ? value
            : throw new ArgumentOutOfRangeException(
                name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is {value} {unit}; allowed are {lowest} to {highest} {unit}."));

    public static TimeSpan NotNegative(TimeSpan value, [CallerArgumentExpression(nameof(value))] string name = "")
        => value >= TimeSpan.Zero
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must not be negative.");

    public static TEnum Defined<TEnum>(TEnum value, [CallerArgumentExpression(nameof(value))] string name = "")
        where TEnum : struct, Enum
        => Enum.IsDefined(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} is no value of {typeof(TEnum).Name}: {string.Join(", ", Enum.GetNames<TEnum>())}.");

    /// <summary>Lengths of parallel spans.</summary>
    public static void SameLength(int expected, int actual, string name)
    {
        if (expected != actual)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{name} holds {actual} values; {expected} are expected, as in the other spans."), name);
        }
    }
}
