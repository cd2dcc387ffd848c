using System.Globalization;

namespace SoloRide.Tests.Hydration;

/// <summary>Reads the small tables of Data/hydration: header, quoted cells.</summary>
internal static class HydrationCsv
{
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Read(string name)
    {
        string[] lines = File.ReadAllLines(Repo.Data("hydration", name));
        string[] header = Cells(lines[0]);
        return [.. lines.Skip(1).Where(l => l.Length > 0).Select(l => Cells(l)).Select(c =>
            (IReadOnlyDictionary<string, string>)header.Select((h, i) => (h, i)).ToDictionary(p => p.h, p => p.i < c.Length ? c[p.i] : "", StringComparer.Ordinal))];
    }

    public static double Num(this IReadOnlyDictionary<string, string> row, string column)
        => double.TryParse(row[column], NumberStyles.Float, CultureInfo.InvariantCulture, out double v) ? v : double.NaN;

    public static double[] List(this IReadOnlyDictionary<string, string> row, string column)
        => [.. row[column].Trim('[', ']').Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(x => double.Parse(x, CultureInfo.InvariantCulture))];

    private static string[] Cells(string line)
    {
        var cells = new List<string>();
        var cell = new System.Text.StringBuilder();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (c == '"')
            {
                if (quoted && i + 1 < line.Length && line[i + 1] == '"')
                {
                    cell.Append('"');
                    i++;
                }
                else
                {
                    quoted = !quoted;
                }
            }
            else if (c == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString());
        return [.. cells];
    }
}
