using System.Globalization;

namespace SoloRide.Internal;

/// <summary>Numbers and times as people read them; always the invariant culture and 24-hour clock.</summary>
internal static class Text
{
    public static string F(double value, int decimals)
    {
        if (!double.IsFinite(value))
        {
            return double.IsNaN(value) ? "unknown" : value > 0 ? "unlimited" : "-unlimited";
        }

        double rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    /// <summary>A chance in whole percent that never promises: "above 99 %" and "below 1 %" at the ends.</summary>
    public static string Chance(double probability)
        => double.IsNaN(probability) ? "not known" : probability > 0.99 ? "above 99 %" : probability < 0.01 ? "below 1 %" : F(100 * probability, 0) + " %";

    /// <summary>Whole numbers with a space between thousands: 1 150.</summary>
    public static string Thousands(double value)
        => Math.Round(value, MidpointRounding.AwayFromZero).ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ');

    /// <summary>3 h 05, 45 min, 0 min.</summary>
    public static string Span(TimeSpan span)
    {
        string sign = span < TimeSpan.Zero ? "-" : "";
        long minutes = (long)Math.Round(Math.Abs(span.TotalMinutes), MidpointRounding.AwayFromZero);
        return minutes < 60
            ? string.Create(CultureInfo.InvariantCulture, $"{sign}{minutes} min")
            : string.Create(CultureInfo.InvariantCulture, $"{sign}{minutes / 60} h {minutes % 60:00}");
    }

    /// <summary>HH:mm of the instant in its own offset.</summary>
    public static string Clock(DateTimeOffset instant)
        => Minute(instant).ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>Sat 19 April 2025.</summary>
    public static string Date(DateTimeOffset instant)
        => Minute(instant).ToString("ddd d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>The name of a value of an enumeration in words: PressureBandage is pressure bandage.</summary>
    public static string Words<T>(T value)
        where T : struct, Enum
        => string.Concat(value.ToString().Select((c, i) => char.IsUpper(c) ? (i > 0 ? " " : "") + char.ToLowerInvariant(c) : c.ToString()));

    /// <summary>2025-04-19, by the Gregorian calendar whatever that of the machine is.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>UTC-6, UTC+5:30, UTC.</summary>
    public static string Offset(TimeSpan offset)
    {
        if (offset == TimeSpan.Zero)
        {
            return "UTC";
        }

        string sign = offset < TimeSpan.Zero ? "-" : "+";
        TimeSpan a = offset.Duration();
        return a.Minutes == 0
            ? string.Create(CultureInfo.InvariantCulture, $"UTC{sign}{a.Hours}")
            : string.Create(CultureInfo.InvariantCulture, $"UTC{sign}{a.Hours}:{a.Minutes:00}");
    }

    private static DateTimeOffset Minute(DateTimeOffset instant)
    {
        long half = TimeSpan.TicksPerMinute / 2;
        long ticks = instant.Ticks + half;
        return new DateTimeOffset(ticks - (ticks % TimeSpan.TicksPerMinute), instant.Offset);
    }
}
