using System.Globalization;
using System.Text;

namespace SoloRide.Accuracy;

/// <summary>A small table of comma-separated values: header, quoted cells, lines that begin with # are comments.</summary>
public sealed class CsvTable
{
    private readonly Dictionary<string, int> _columns;

    private CsvTable(string name, string[] header, List<string[]> rows)
    {
        Name = name;
        Header = header;
        Rows = [.. rows.Select((cells, i) => new CsvRow(this, cells, i + 1))];
        _columns = header.Select((h, i) => (h, i)).ToDictionary(p => p.h, p => p.i, StringComparer.Ordinal);
    }

    public string Name { get; }

    public IReadOnlyList<string> Header { get; }

    public IReadOnlyList<CsvRow> Rows { get; }

    public static CsvTable Read(string path)
    {
        var lines = new List<string[]>();
        foreach (string[] cells in Records(File.ReadAllText(path, Encoding.UTF8)))
        {
            if (cells.Length > 1 || (cells[0].Length > 0 && cells[0][0] != '#'))
            {
                if (cells[0].Length > 0 && cells[0][0] == '#')
                {
                    continue;
                }

                lines.Add(cells);
            }
        }

        return new CsvTable(Path.GetFileName(path), lines[0], lines[1..]);
    }

    public bool Has(string column) => _columns.ContainsKey(column);

    internal int Index(string column)
        => _columns.TryGetValue(column, out int i) ? i : throw new KeyNotFoundException($"{Name} has no column {column}: {string.Join(", ", Header)}");

    private static IEnumerable<string[]> Records(string text)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        bool quoted = false, any = false;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (quoted)
            {
                if (c == '"' && i + 1 < text.Length && text[i + 1] == '"')
                {
                    cell.Append('"');
                    i++;
                }
                else if (c == '"')
                {
                    quoted = false;
                }
                else
                {
                    cell.Append(c);
                }
            }
            else if (c == '"')
            {
                quoted = true;
                any = true;
            }
            else if (c == ',')
            {
                cells.Add(cell.ToString());
                cell.Clear();
                any = true;
            }
            else if (c == '\n')
            {
                if (any || cell.Length > 0)
                {
                    cells.Add(cell.ToString());
                    yield return [.. cells];
                }

                cells.Clear();
                cell.Clear();
                any = false;
            }
            else if (c is not '\r' and not '\uFEFF')
            {
                cell.Append(c);
            }
        }

        if (any || cell.Length > 0)
        {
            cells.Add(cell.ToString());
            yield return [.. cells];
        }
    }
}

/// <summary>One row; number 1 is the first row below the header.</summary>
public sealed class CsvRow(CsvTable table, string[] cells, int number)
{
    public int Number { get; } = number;

    public string this[string column]
    {
        get
        {
            int i = table.Index(column);
            return i < cells.Length ? cells[i] : "";
        }
    }

    /// <summary>The number in a cell; NaN when empty or not a number; inf is infinity.</summary>
    public double Num(string column)
    {
        string s = this[column].Trim();
        return s switch
        {
            "inf" or "+inf" => double.PositiveInfinity,
            "-inf" => double.NegativeInfinity,
            _ => double.TryParse(s, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) ? v : double.NaN,
        };
    }

    public int Whole(string column) => int.Parse(this[column], CultureInfo.InvariantCulture);

    public bool IsEmpty(string column) => string.IsNullOrWhiteSpace(this[column]);
}
