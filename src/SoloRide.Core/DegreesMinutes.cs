using System.Globalization;
using SoloRide.Internal;

namespace SoloRide;

/// <summary>Latitude and longitude in degrees and decimal minutes, the form that aircraft and ships ask for. WGS 84.</summary>
[Entry]
public static class DegreesMinutes
{
    /// <summary>Writes a place; rounded as one whole number, so that 60 minutes never appear.</summary>
    /// <param name="place">The place.</param>
    /// <param name="decimals">[0 to 6] Decimals of the minutes; 3 (about two metres) unless stated, which is the most that rescuers ask for.</param>
    /// <returns>Text such as <c>45 23.473 S, 173 7.701 E</c>: no leading zeros, the half of the earth as a letter.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Decimals outside 0 to 6.</exception>
    [Source("us-nsarc-2007", "latitude and longitude as DD-MM.mmm, no leading zeros")]
    public static string Format(GeoPoint place, int decimals = 3)
    {
        Guard.InRange(decimals, 0, 6, "decimals");
        return $"{One(place.LatDeg, decimals, 'N', 'S', 1, 1)}, {One(place.LonDeg, decimals, 'E', 'W', 1, 1)}";
    }

    /// <summary>Degrees and minutes padded with zeros, latitude and longitude apart by a slash.</summary>
    internal static string Padded(GeoPoint place, int decimals)
        => $"{One(place.LatDeg, decimals, 'N', 'S', 2, 2)} / {One(place.LonDeg, decimals, 'E', 'W', 3, 2)}";

    /// <summary>Degrees, minutes and seconds to 0.01", padded.</summary>
    internal static string Seconds(GeoPoint place) => $"{Sec(place.LatDeg, 'N', 'S', 2)} {Sec(place.LonDeg, 'E', 'W', 3)}";

    private static string One(double deg, int decimals, char positive, char negative, int degreeDigits, int minuteDigits)
    {
        long scale = 1;
        for (int i = 0; i < decimals; i++)
        {
            scale *= 10;
        }

        long units = (long)Math.Round(Math.Abs(deg) * 60 * scale, MidpointRounding.AwayFromZero);
        long whole = units / (60 * scale), rest = units % (60 * scale);
        string minutes = (rest / scale).ToString("D" + minuteDigits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        string fraction = decimals == 0 ? "" : "." + (rest % scale).ToString("D" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return $"{whole.ToString("D" + degreeDigits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)} {minutes}{fraction} {(deg < 0 ? negative : positive)}";
    }

    private static string Sec(double deg, char positive, char negative, int degreeDigits)
    {
        long units = (long)Math.Round(Math.Abs(deg) * 360_000, MidpointRounding.AwayFromZero);
        return string.Create(CultureInfo.InvariantCulture,
            $"{(units / 360_000).ToString("D" + degreeDigits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)}d{units / 6000 % 60:00}'{units / 100 % 60:00}.{units % 100:00}\"{(deg < 0 ? negative : positive)}");
    }
}
