using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using SoloRide.Internal;

namespace SoloRide;

/// <summary>
/// A square of the military grid (MGRS), which the US National Grid shares on WGS 84: letters for zone, band and square, digits that are
/// cut off and never rounded.
/// </summary>
/// <remarks><c>default</c> names no square: its text is empty. Immutable. Sources: nga-mgrs, karney-2011.</remarks>
[Entry]
public readonly record struct GridReference
{
    private const int MaxTextLength = 15;

    private readonly byte _zone;
    private readonly bool _north;
    private readonly char _band;
    private readonly char _column;
    private readonly char _row;
    private readonly int _eastingM;
    private readonly int _northingM;
    private readonly int _baseEastingKm;
    private readonly int _baseNorthingKm;

    private GridReference(int zone, bool north, char band, char column, char row, int baseEastingKm, int baseNorthingKm, int eastingM, int northingM, GridPrecision precision)
    {
        _zone = (byte)zone;
        _north = north;
        _band = band;
        _column = column;
        _row = row;
        _baseEastingKm = baseEastingKm;
        _baseNorthingKm = baseNorthingKm;
        int side = Side(precision);
        _eastingM = eastingM / side * side;
        _northingM = northingM / side * side;
        Precision = precision;
    }

    /// <summary>Side of the square.</summary>
    public GridPrecision Precision { get; }

    /// <summary>Zone, 1 to 60; 0 at the poles.</summary>
    public int Zone => _zone;

    /// <summary>South-west corner of the square, in its own zone.</summary>
    /// <exception cref="InvalidOperationException">The reference is <c>default</c>.</exception>
    public GeoPoint SouthWestCorner => At(0);

    /// <summary>Middle of the square, in its own zone: what to use as the place.</summary>
    /// <exception cref="InvalidOperationException">The reference is <c>default</c>.</exception>
    public GeoPoint Centre => At(Side(Precision) / 2.0);

    /// <summary>The square that holds a place.</summary>
    /// <param name="place">The place.</param>
    /// <param name="precision">Side of the square; 10 m unless stated, as messages to rescuers want it.</param>
    /// <returns>The square.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The precision is no value of the enumeration.</exception>
    public static GridReference Of(GeoPoint place, GridPrecision precision = GridPrecision.TenMetres)
    {
        if ((uint)precision > (uint)GridPrecision.OneMetre)
        {
            Guard.Defined(precision);
        }

        double lat = place.LatDeg;
        bool north = lat >= 0;
        int zone = UtmKernel.Zone(lat, place.LonDeg);
        double e, n;
        char band;
        if (zone == 0)
        {
            UtmKernel.UpsForward(lat, place.LonDeg, north, out e, out n);
            band = (north, e < UtmKernel.UpsFalseOriginM) switch { (true, true) => 'Y', (true, false) => 'Z', (false, true) => 'A', _ => 'B' };
        }
        else
        {
            UtmKernel.UtmForward(lat, place.LonDeg, zone, north, out e, out n);
            band = UtmKernel.Band(lat, place.LonDeg);

            // A hair south of the equator the northing rounds up to the false northing itself, which would name the wrong half.
            n = north ? Math.Max(n, 0) : Math.Min(n, Math.BitDecrement(UtmKernel.FalseNorthingSouthM));
        }

        UtmKernel.SquareLetters(zone, north, e, n, out char column, out char row);
        int eM = (int)Math.Floor(e), nM = (int)Math.Floor(n);
        int be = eM / 100_000, bn = nM / 100_000;
        return new GridReference(zone, north, band, column, row, be * 100, bn * 100, eM - (be * 100_000), nM - (bn * 100_000), precision);
    }

    /// <summary>Reads a reference with or without spaces, in capitals or not, such as <c>37U CS 1194 5531</c>.</summary>
    /// <param name="text">The text: zone (1 or 2 digits; none at the poles), band, two letters, an even number of digits up to ten.</param>
    /// <returns>The square.</returns>
    /// <exception cref="InputFormatException">The text names no square; the message says what is wrong.</exception>
    public static GridReference Parse(string text)
        => TryRead(Guard.NotNull(text), out GridReference r, out int position, out string? reason)
            ? r
            : throw new InputFormatException($"grid reference '{text}'", 1, position, reason);

    /// <summary>Reads a reference without an exception.</summary>
    /// <param name="text">The text.</param>
    /// <param name="reference">The square; <c>default</c> when the text names none.</param>
    /// <returns>Whether the text names a square.</returns>
    public static bool TryParse([NotNullWhen(true)] string? text, out GridReference reference)
    {
        reference = default;
        return text is not null && TryRead(text, out reference, out _, out _);
    }

    /// <summary>Writes the reference without spaces.</summary>
    /// <param name="destination">At least 15 characters, or as many as the precision needs.</param>
    /// <param name="charsWritten">Characters written.</param>
    /// <returns>Whether there was room.</returns>
    public bool TryFormat(Span<char> destination, out int charsWritten)
    {
        charsWritten = 0;
        if (_band == 0)
        {
            return true;
        }

        int digits = (int)Precision;
        int need = (_zone == 0 ? 3 : 5) + (2 * digits);
        if (destination.Length < need)
        {
            return false;
        }

        int at = 0;
        if (_zone != 0)
        {
            destination[at++] = (char)('0' + (_zone / 10));
            destination[at++] = (char)('0' + (_zone % 10));
        }

        destination[at++] = _band;
        destination[at++] = _column;
        destination[at++] = _row;
        int side = Side(Precision);
        Digits(destination.Slice(at, digits), _eastingM / side);
        Digits(destination.Slice(at + digits, digits), _northingM / side);
        charsWritten = need;
        return true;
    }

    /// <summary>Without spaces, zone with two digits.</summary>
    /// <returns>Text such as <c>37UCS11945531</c>.</returns>
    public override string ToString()
    {
        Span<char> buffer = stackalloc char[MaxTextLength];
        TryFormat(buffer, out int n);
        return new string(buffer[..n]);
    }

    /// <summary>With the spaces that the US National Grid is written with and that are easiest to read over the telephone.</summary>
    /// <returns>Text such as <c>37U CS 1194 5531</c>.</returns>
    public string ToSpacedString()
    {
        string s = ToString();
        if (s.Length == 0)
        {
            return s;
        }

        int head = _zone == 0 ? 1 : 3, digits = (int)Precision;
        string letters = $"{s[..head]} {s.Substring(head, 2)}";
        return digits == 0 ? letters : $"{letters} {s.Substring(head + 2, digits)} {s.Substring(head + 2 + digits, digits)}";
    }

    private static int Side(GridPrecision precision) => precision switch
    {
        GridPrecision.OneMetre => 1,
        GridPrecision.TenMetres => 10,
        GridPrecision.HundredMetres => 100,
        GridPrecision.OneKilometre => 1000,
        GridPrecision.TenKilometres => 10_000,
        _ => 100_000,
    };

    private static void Digits(Span<char> into, int value)
    {
        for (int i = into.Length - 1; i >= 0; i--)
        {
            (value, int d) = Math.DivRem(value, 10);
            into[i] = (char)('0' + d);
        }
    }

    private static bool TryRead(string text, out GridReference reference, out int position, [NotNullWhen(false)] out string? reason)
    {
        reference = default;
        position = 0;
        Span<char> s = stackalloc char[MaxTextLength];
        int length = 0;
        for (int i = 0; i < text.Length; i++)
        {
            char c = char.ToUpperInvariant(text[i]);
            if (char.IsWhiteSpace(c))
            {
                continue;
            }

            position = i + 1;
            if (!char.IsAsciiLetterUpper(c) && !char.IsAsciiDigit(c))
            {
                reason = $"'{text[i]}' is neither a letter A to Z nor a digit.";
                return false;
            }

            if (length == MaxTextLength)
            {
                reason = "too long; at most zone, three letters and ten digits are expected.";
                return false;
            }

            s[length++] = c;
        }

        position = 1;
        int at = 0, zone = 0;
        while (at < length && at < 2 && char.IsAsciiDigit(s[at]))
        {
            zone = (zone * 10) + (s[at++] - '0');
        }

        if ((at > 0 && zone is < 1 or > 60) || (at == 0 && length > 0 && s[0] is not ('A' or 'B' or 'Y' or 'Z')))
        {
            reason = at == 0 ? "a zone from 1 to 60 (or a polar letter A, B, Y, Z) is expected first." : $"zone {zone} does not exist; 1 to 60 are expected.";
            return false;
        }

        if (length < at + 3 || !char.IsAsciiLetterUpper(s[at]) || !char.IsAsciiLetterUpper(s[at + 1]) || !char.IsAsciiLetterUpper(s[at + 2]))
        {
            reason = "three letters are expected after the zone: the band and the hundred-kilometre square.";
            return false;
        }

        char band = s[at], column = s[at + 1], row = s[at + 2];
        ReadOnlySpan<char> digits = s[(at + 3)..length];
        if ((digits.Length & 1) != 0 || digits.Length > 10 || digits.ContainsAnyExceptInRange('0', '9'))
        {
            reason = string.Create(CultureInfo.InvariantCulture, $"after the letters an even number of digits up to ten is expected, got {digits.Length} characters.");
            return false;
        }

        if (!UtmKernel.TrySquareOrigin(zone, band, column, row, out bool north, out double e, out double n))
        {
            reason = $"the square {column}{row} does not exist in {(zone == 0 ? "the polar area" : string.Create(CultureInfo.InvariantCulture, $"zone {zone}, band"))} {band}.";
            return false;
        }

        int d = digits.Length / 2;
        var precision = (GridPrecision)d;
        int side = Side(precision);
        int eM = d == 0 ? 0 : int.Parse(digits[..d], CultureInfo.InvariantCulture) * side;
        int nM = d == 0 ? 0 : int.Parse(digits[d..], CultureInfo.InvariantCulture) * side;
        reference = new GridReference(zone, north, band, column, row, (int)(e / 1000), (int)(n / 1000), eM, nM, precision);
        reason = null;
        return true;
    }

    private GeoPoint At(double insideM)
    {
        if (_band == 0)
        {
            throw new InvalidOperationException("This grid reference was never set: it names no square.");
        }

        double e = (_baseEastingKm * 1000.0) + _eastingM + insideM;
        double n = (_baseNorthingKm * 1000.0) + _northingM + insideM;
        double lat, lon;
        if (_zone == 0)
        {
            UtmKernel.UpsInverse(e, n, _north, out lat, out lon);
        }
        else
        {
            UtmKernel.UtmInverse(e, n, _zone, _north, out lat, out lon);
        }

        return new GeoPoint(Math.Clamp(lat, -90, 90), lon);
    }
}
