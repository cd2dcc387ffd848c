using System.Globalization;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Charts;

/// <summary>Numbers, times and quantities as the pictures write them; always the invariant culture and the 24-hour clock.</summary>
internal sealed class Words(MeasureSystem system)
{
    private const double KmPerMile = 1.609344, FeetPerM = 1 / 0.3048, QuartsPerL = 1 / 0.946352946;

    public bool Us { get; } = system == MeasureSystem.UsCustomary;

    public string FarUnit => Us ? "mi" : "km";

    public string HeightUnit => Us ? "ft" : "m";

    public string WaterUnit => Us ? "qt" : "L";

    public string HeatUnit => Us ? "°F" : "°C";

    public double Far(Length l) => Us ? l.Kilometers / KmPerMile : l.Kilometers;

    public double Far(double m) => Us ? m / 1000 / KmPerMile : m / 1000;

    public double Height(double m) => Us ? m * FeetPerM : m;

    public double Water(Volume v) => Us ? v.Liters * QuartsPerL : v.Liters;

    public double Heat(double c) => Us ? (c * 9 / 5) + 32 : c;

    public string FarText(Length l, int decimals = 1) => Number(Far(l), decimals) + " " + FarUnit;

    /// <summary>"km 31.0" or "mile 19.3".</summary>
    public string Place(Length l) => (Us ? "mile " : "km ") + Number(Far(l), 1);

    public string HeightText(double m) => Number(Math.Round(Height(m) / (Us ? 50 : 10), MidpointRounding.AwayFromZero) * (Us ? 50 : 10), 0) + " " + HeightUnit;

    public string WaterText(Volume v) => Number(Water(v), 1) + " " + WaterUnit;

    public string HeatText(double c, int decimals = 0) => Number(Heat(c), decimals) + " " + HeatUnit;

    public static string Number(double v, int decimals)
    {
        double r = Math.Round(v, decimals, MidpointRounding.AwayFromZero);
        string text = (r == 0 ? 0 : r).ToString("#,0." + new string('0', decimals), CultureInfo.InvariantCulture).Replace(',', '\u00A0');
        return text.Replace('-', '\u2212');
    }

    public static string Percent(double fraction) => Number(fraction * 100, 0) + " %";

    public static string Clock(DateTimeOffset t)
    {
        DateTime m = Minute(t.DateTime);
        return m.ToString("HH:mm", CultureInfo.InvariantCulture);
    }

    public static string Clock(DateTime t) => t.ToString("HH:mm", CultureInfo.InvariantCulture);

    public static string Day(DateTime t) => t.ToString("ddd d MMM", CultureInfo.InvariantCulture);

    public static string DayOfMonth(DateTime t) => t.ToString("d MMM", CultureInfo.InvariantCulture);

    public static string Date(DateTimeOffset t) => Minute(t.DateTime).ToString("ddd d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>Clock, with the day where it is another than that of the start.</summary>
    public static string ClockOn(DateTimeOffset t, DateTimeOffset start)
    {
        DateTime m = Minute(t.DateTime);
        return m.Date == start.Date ? Clock(m) : $"{Clock(m)} {Day(m)}";
    }

    /// <summary>3 h 05, 45 min.</summary>
    public static string Span(TimeSpan span)
    {
        long minutes = (long)Math.Round(Math.Abs(span.TotalMinutes), MidpointRounding.AwayFromZero);
        string sign = span < TimeSpan.Zero && minutes > 0 ? "\u2212" : "";
        return minutes < 60
            ? string.Create(CultureInfo.InvariantCulture, $"{sign}{minutes} min")
            : string.Create(CultureInfo.InvariantCulture, $"{sign}{minutes / 60} h {minutes % 60:00}");
    }

    public static string Zone(DateTimeOffset t)
    {
        TimeSpan o = t.Offset;
        if (o == TimeSpan.Zero)
        {
            return "UTC";
        }

        string sign = o < TimeSpan.Zero ? "\u2212" : "+";
        TimeSpan a = o.Duration();
        return a.Minutes == 0
            ? string.Create(CultureInfo.InvariantCulture, $"UTC{sign}{a.Hours}")
            : string.Create(CultureInfo.InvariantCulture, $"UTC{sign}{a.Hours}:{a.Minutes:00}");
    }

    private static DateTime Minute(DateTime t)
    {
        long ticks = t.Ticks + (TimeSpan.TicksPerMinute / 2);
        return new DateTime(ticks - (ticks % TimeSpan.TicksPerMinute), DateTimeKind.Unspecified);
    }
}
