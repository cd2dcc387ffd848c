using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Sentences of the library in US units. Names that the caller gave are left as they are, whatever they hold.</summary>
internal static partial class UsWords
{
    private const double MPerMile = 1609.344, MPerFoot = 0.3048, LPerQuart = 0.946352946, KgPerPound = 0.45359237, GPerOunce = 28.349523125;

    [GeneratedRegex(@"\bkm (?<n>\d+(?:\.\d+)?)\b", RegexOptions.CultureInvariant)]
    private static partial Regex Place { get; }

    [GeneratedRegex(@"\b(?<lead>with|fill to|water) (?<n>\d+(?:\.\d+)?) L(?![\w/])", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex ToCarry { get; }

    [GeneratedRegex(@"(?<![\w.])(?:(?<a>-?\d{1,3}(?: \d{3})+|-?\d+(?:\.\d+)?)(?<join>-| to ))?(?<b>-?\d{1,3}(?: \d{3})+(?:\.\d+)?|-?\d+(?:\.\d+)?) (?<unit>km/h|km|m/s|L/h|L/min|L|C|K|kg|g(?! (?:sodium|carbohydrate))|m)(?![\w/^²])", RegexOptions.CultureInvariant)]
    private static partial Regex Amount { get; }

    /// <summary>Writes distances, heights, volumes, masses, temperatures and speeds of a sentence in US units.</summary>
    /// <param name="text">The sentence.</param>
    /// <param name="names">Names to be left alone, longest first.</param>
    /// <returns>The sentence in US units.</returns>
    public static string Of(string text, IReadOnlyList<string> names)
    {
        var b = new StringBuilder();
        int from = 0;
        while (from < text.Length)
        {
            int at = text.Length;
            string? found = null;
            foreach (string name in names)
            {
                int i = text.IndexOf(name, from, StringComparison.Ordinal);
                if (i >= 0 && i < at)
                {
                    at = i;
                    found = name;
                }
            }

            b.Append(Plain(text[from..at])).Append(found);
            from = at + (found?.Length ?? 0);
        }

        return b.ToString();
    }

    private static string Plain(string text)
        => Amount.Replace(
            Place.Replace(ToCarry.Replace(text, m => $"{m.Groups["lead"].Value} {PlanUnits.Us.LitresUp(Number(m.Groups["n"].ValueSpan))}"), m => "mile " + Text.F(Number(m.Groups["n"].ValueSpan) * 1000 / MPerMile, 1)),
            m =>
            {
                (double scale, double shift, string unit, int decimals, bool thousands) = m.Groups["unit"].Value switch
                {
                    "km" => (1000 / MPerMile, 0.0, "mi", 1, false),
                    "km/h" => (1000 / MPerMile, 0, "mph", 1, false),
                    "m/s" => (3600 / MPerMile, 0, "mph", 0, false),
                    "L" => (1 / LPerQuart, 0, "qt", 1, false),
                    "L/h" => (1 / LPerQuart, 0, "qt/h", 1, false),
                    "L/min" => (1 / LPerQuart, 0, "qt/min", 1, false),
                    "C" => (1.8, 32, "F", 0, false),
                    "K" => (1.8, 0, "F", 1, false),
                    "kg" => (1 / KgPerPound, 0, "lb", 1, false),
                    "m" => (1 / MPerFoot, 0, "ft", 0, true),
                    _ => (1 / GPerOunce, 0, "oz", 1, false),
                };
                string low = m.Groups["a"].Success ? Write(m.Groups["a"].ValueSpan) + m.Groups["join"].Value : "";
                return $"{low}{Write(m.Groups["b"].ValueSpan)} {unit}";

                string Write(ReadOnlySpan<char> number)
                {
                    double v = (Number(number) * scale) + shift;
                    return thousands ? Text.Thousands(v) : Text.F(v, decimals);
                }
            });

    private static double Number(ReadOnlySpan<char> text) => double.Parse(text.ToString().Replace(" ", "", StringComparison.Ordinal), NumberStyles.Float, CultureInfo.InvariantCulture);
}
