namespace SoloRide.Demo;

/// <summary>The fifteen rides by their ids.</summary>
public static class Scenarios
{
    /// <summary>Ids in order.</summary>
    public static IReadOnlyList<string> Ids { get; } = ["S01", "S02", "S03", "S04", "S05", "S06", "S07", "S08", "S09", "S10", "S11", "S12", "S13", "S14", "S15"];

    /// <summary>One ride.</summary>
    /// <param name="id">S01 to S15.</param>
    /// <param name="folder">The folder with the data files.</param>
    /// <returns>The ride.</returns>
    /// <exception cref="ArgumentException">No such id.</exception>
    public static Scenario Of(string id, string folder) => id switch
    {
        "S01" => new S01(folder),
        "S02" => new S02(folder),
        "S03" => new S03(folder),
        "S04" => new S04(folder),
        "S05" => new S05(folder),
        "S06" => new S06(folder),
        "S07" => new S07(folder),
        "S08" => new S08(folder),
        "S09" => new S09(folder),
        "S10" => new S10(folder),
        "S11" => new S11(folder),
        "S12" => new S12(folder),
        "S13" => new S13(folder),
        "S14" => new S14(folder),
        "S15" => new S15(folder),
        _ => throw new ArgumentException($"'{id}' is no scenario; there are {string.Join(", ", Ids)}, or 'all'.", nameof(id)),
    };
}
