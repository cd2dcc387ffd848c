using System.Globalization;
using System.Text;
using SoloRide.Accuracy;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["--fuzz", var files, var countText, var seedText])
{
    return RouteFuzz.Run(files, int.Parse(countText, CultureInfo.InvariantCulture), int.Parse(seedText, CultureInfo.InvariantCulture));
}

if (args is ["--calibrate", var tables, var drawsText])
{
    return AscentCalibration.Run(tables, int.Parse(drawsText, CultureInfo.InvariantCulture));
}

if (args is ["--plan-calibration", var ridersText, var routesText, var planSeedText, var threadsText, var secondsText])
{
    return PlanCalibration.Run(
        int.Parse(ridersText, CultureInfo.InvariantCulture), int.Parse(routesText, CultureInfo.InvariantCulture), int.Parse(planSeedText, CultureInfo.InvariantCulture),
        int.Parse(threadsText, CultureInfo.InvariantCulture), double.Parse(secondsText, CultureInfo.InvariantCulture));
}

string? folder = null;
bool strict = false, markdown = false;
int draws = 2, seed = 1;
string? only = null;
string? markdownFile = null;
for (int i = 0; i < args.Length; i++)
{
    switch (args[i])
    {
        case "--strict": strict = true; break;
        case "--markdown": markdown = true; break;
        case "--into": markdownFile = args[++i]; markdown = true; break;
        case "--draws": draws = int.Parse(args[++i], CultureInfo.InvariantCulture); break;
        case "--seed": seed = int.Parse(args[++i], CultureInfo.InvariantCulture); break;
        case "--only": only = args[++i]; break;
        default: folder = args[i]; break;
    }
}

if (folder is null || !Directory.Exists(folder))
{
    Console.Error.WriteLine("usage: SoloRide.Core.Accuracy FOLDER [--strict] [--markdown] [--into docs/accuracy.md] [--only MODULE[/TABLE]] [--draws N] [--seed N]");
    Console.Error.WriteLine("FOLDER holds one folder a module with its check tables.");
    return 2;
}

var context = new RunContext(folder, draws, seed);
IModuleTables[] modules = [.. typeof(RunContext).Assembly.GetTypes()
    .Where(t => t is { IsAbstract: false, IsInterface: false } && t.IsAssignableTo(typeof(IModuleTables)))
    .Select(t => (IModuleTables)Activator.CreateInstance(t)!).OrderBy(m => m.Module, StringComparer.Ordinal)];
var known = modules.SelectMany(m => m.Tables).ToList();
var noTable = modules.SelectMany(m => m.NoTable).ToHashSet(StringComparer.Ordinal);
int met = 0, notMet = 0, data = 0, behind = 0;
foreach (string dir in Directory.GetDirectories(folder).Order(StringComparer.Ordinal))
{
    string module = Path.GetFileName(dir);
    if (only is not null && !only.StartsWith(module, StringComparison.Ordinal))
    {
        continue;
    }

    var lines = new StringBuilder();
    if (markdown)
    {
        lines.AppendLine("| table | kind | rows | worst | rms | unit | measure | value | bar | met |").AppendLine("|---|---|---|---|---|---|---|---|---|---|");
    }

    var seen = new List<string>();
    foreach (TableCheck table in known.Where(t => t.Path.StartsWith(module + "/", StringComparison.Ordinal)))
    {
        string path = context.File(table.Path);
        if ((!File.Exists(path) && !Directory.Exists(path)) || (only is not null && !table.Path.StartsWith(only, StringComparison.Ordinal)))
        {
            if (File.Exists(path) || Directory.Exists(path))
            {
                seen.Add(table.Path);
            }

            continue;
        }

        seen.Add(table.Path);
        TableResult result;
        try
        {
            result = table.Run(context);
        }
#pragma warning disable CA1031 // A table that cannot be run is a result of the report, not its end.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Print(table.Path, Kind(table.Kind), new TableResult(0, double.NaN, double.NaN, ""), new Measure("runs: " + e.GetType().Name + " " + e.Message.ReplaceLineEndings(" "), double.NaN, "", 0), lines);
            notMet++;
            behind++;
            continue;
        }

        if (result.Measures.Length == 0)
        {
            data++;
            Print(table.Path, Kind(table.Kind), result, null, lines);
        }

        foreach (Measure m in result.Measures)
        {
            Print(table.Path, Kind(table.Kind), result, m, lines);
            _ = m.Met switch { null => data++, true => met++, false => notMet++ };
            behind += m.BehindFloor || (m.Floor is null && m.Met == false) ? 1 : 0;
        }
    }

    foreach (string file in Directory.GetFiles(dir, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
    {
        string rel = Path.GetRelativePath(folder, file).Replace('\\', '/');
        if ((rel.EndsWith(".csv", StringComparison.Ordinal) || rel.EndsWith(".json", StringComparison.Ordinal))
            && !seen.Any(s => rel == s || rel.StartsWith(s.TrimEnd('/') + "/", StringComparison.Ordinal))
            && !noTable.Any(s => rel == s || rel.StartsWith(s.TrimEnd('/') + "/", StringComparison.Ordinal))
            && (only is null || rel.StartsWith(only, StringComparison.Ordinal)))
        {
            notMet++;
            Print(rel, "not covered yet", new TableResult(0, double.NaN, double.NaN, ""), new Measure("covered", 0, "", 1, true), lines);
        }
    }

    if (!markdown)
    {
        Console.Write(lines);
    }
    else if (markdownFile is null)
    {
        Console.WriteLine($"## {module}\n\n{lines}");
    }
    else
    {
        string text = File.ReadAllText(markdownFile);
        string begin = $"<!-- {module}: begin -->", end = $"<!-- {module}: end -->";
        int a = text.IndexOf(begin, StringComparison.Ordinal), b = text.IndexOf(end, StringComparison.Ordinal);
        if (a >= 0 && b > a)
        {
            File.WriteAllText(markdownFile, text[..(a + begin.Length)] + "\n\n" + lines.ToString().ReplaceLineEndings("\n") + "\n" + text[b..]);
        }
    }
}

Console.WriteLine($"measures: {met} met, {notMet} not met, {data} data without a bar, {behind} behind their floor");
return behind > 0 || (strict && notMet > 0) ? 1 : 0;

void Print(string path, string kind, TableResult r, Measure? m, StringBuilder into)
{
    string verdict = m is null ? "data, no bar" : m.Met switch { null => "data, no bar", true => "met", false => "not met" };
    string worst = G(r.Worst), rms = G(r.Rms), value = m is null ? "" : G(m.Value), bar = m?.Bar is { } b ? (m.AtLeast ? ">= " : "<= ") + G(b) : "";
    into.AppendLine(markdown
        ? $"| {path} | {kind} | {r.Rows} | {worst} | {rms} | {r.Unit} | {m?.What} | {value} {m?.Unit} | {bar} | {verdict} |"
        : $"{verdict,-12} {path,-44} {kind,-18} rows {r.Rows,6}  worst {worst,10}  rms {rms,10} {r.Unit,-10} {m?.What} {value} {m?.Unit} {bar}");
}

static string G(double v) => double.IsNaN(v) ? "-" : v.ToString("G4", CultureInfo.InvariantCulture);

static string Kind(TruthKind kind) => kind switch
{
    TruthKind.OutsideTruth => "outside truth",
    TruthKind.PublishedExample => "published example",
    TruthKind.OwnArithmetic => "own arithmetic",
    _ => "from memory",
};
