using System.Globalization;
using System.Text.RegularExpressions;
using SoloRide.Accuracy;
using SoloRide.Effort;
using SoloRide.Escape;

namespace SoloRide.Tests.Escape;

/// <summary>Reads the words of a row of walking_rule_checks.csv.</summary>
internal static partial class WalkingRuleRow
{
    public static double? Value(CsvRow row)
    {
        string a = row["arg1"], b = row["arg2"];
        return row["rule"] switch
        {
            "tobler_km_h" => WalkingKernel.ToblerKmh(row.Num("arg1")),
            "tobler_offpath_km_h" => WalkingKernel.ToblerKmh(row.Num("arg1")) * WalkingKernel.ToblerOffPathFactor,
            "naismith_h" => HikingKernel.NaismithHours(Number(a, "km"), Number(b, "m up")),
            "flat_equivalent_km_8to1" => HikingKernel.NaismithEightHours(Number(a, "km"), Number(b, "m up"), 1),
            "langmuir_h" => HikingKernel.LangmuirHours(Number(a, "km"), Number(b, "up"), Number(b, "gentle down"), Number(b, "steep down")),
            "time_control_plan_h" => WalkingKernel.TimeControlHours(Number(a, "mi"), Number(a, "mph"), Number(b, "ft up")),
            _ => null,
        };
    }

    private static double Number(string text, string unit)
    {
        foreach (Match m in Pair().Matches(text))
        {
            if (m.Groups[2].Value.Trim() == unit)
            {
                return double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture);
            }
        }

        return 0;
    }

    [GeneratedRegex(@"(-?\d+(?:\.\d+)?)\s*((?:m up|ft up|gentle down|steep down|up|km|mi|mph)\b)")]
    private static partial Regex Pair();
}
