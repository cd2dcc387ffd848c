namespace SoloRide.Accuracy;

/// <summary>What kind of truth a table holds.</summary>
internal enum TruthKind
{
    OutsideTruth,
    PublishedExample,
    OwnArithmetic,
    FromMemory,
}

/// <summary>One judged figure of a table.</summary>
/// <param name="What">What is measured.</param>
/// <param name="Value">The figure reached.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Bar">The figure wanted; null when the table carries no bar.</param>
/// <param name="AtLeast">Whether the figure must reach the bar from above (shares, rates) instead of staying below it.</param>
/// <param name="Floor">The figure reached before: falling behind it fails the run. Null: the bar itself when met.</param>
internal sealed record Measure(string What, double Value, string Unit, double? Bar = null, bool AtLeast = false, double? Floor = null)
{
    public bool? Met => Bar is not { } bar ? null : AtLeast ? Value >= bar : Value <= bar;

    public bool BehindFloor => Floor is { } floor ? !(AtLeast ? Value >= floor : Value <= floor) : double.IsNaN(Value);
}

/// <summary>What a table gave.</summary>
/// <param name="Rows">Rows compared.</param>
/// <param name="Worst">Largest absolute error.</param>
/// <param name="Rms">Root mean square error.</param>
/// <param name="Unit">Unit of both.</param>
/// <param name="Measures">What is judged; empty when the table is data without a bar.</param>
internal sealed record TableResult(int Rows, double Worst, double Rms, string Unit, params Measure[] Measures);

/// <summary>One table that the report knows, by its path under the folder.</summary>
/// <param name="Path">Such as <c>routes/geodesic_short.csv</c>; a folder for sets of files.</param>
/// <param name="Kind">What kind of truth it holds.</param>
/// <param name="Run">Runs the library over it.</param>
internal sealed record TableCheck(string Path, TruthKind Kind, Func<RunContext, TableResult> Run);

/// <summary>Where the tables lie and how the run was asked for.</summary>
/// <param name="Folder">The folder given on the command line.</param>
/// <param name="Draws">Fresh noise draws a profile, for checks that make them.</param>
/// <param name="Seed">Seed of those draws.</param>
internal sealed record RunContext(string Folder, int Draws, int Seed)
{
    public string File(string path) => System.IO.Path.Combine([Folder, .. path.Split('/')]);

    public CsvTable Table(string path) => CsvTable.Read(File(path));
}

/// <summary>The tables of one module; one class a module, found by reflection.</summary>
internal interface IModuleTables
{
    string Module { get; }

    IEnumerable<TableCheck> Tables { get; }

    /// <summary>Files of the module's folder that are inputs of other tables, or lists without numbers to compare.</summary>
    IEnumerable<string> NoTable => [];
}

/// <summary>Gathers errors.</summary>
internal sealed class ErrorStats
{
    private double _sumSquares;

    public int Count { get; private set; }

    public double Worst { get; private set; }

    public double Sum { get; private set; }

    public double Mean => Count == 0 ? 0 : Sum / Count;

    public double Rms => Count == 0 ? 0 : Math.Sqrt(_sumSquares / Count);

    /// <summary>Adds an error; NaN counts as infinite, so that it cannot hide.</summary>
    public void Add(double error)
    {
        double e = double.IsNaN(error) ? double.PositiveInfinity : Math.Abs(error);
        Count++;
        Sum += e;
        Worst = Math.Max(Worst, e);
        _sumSquares += e * e;
    }

    public TableResult Result(string unit, double bar, string what = "worst error", double? floor = null)
        => new(Count, Worst, Rms, unit, new Measure(what, Worst, unit, bar, false, floor));
}
