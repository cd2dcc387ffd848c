namespace SoloRide.Demo;

/// <summary>The fifteen rides by their ids.</summary>
public static class Scenarios
{
    /// <summary>Ids in order.</summary>
    public static IReadOnlyList<string> Ids { get; } = ["S03", "S07", "S09", "S10", "S11", "S12", "S13"];

    /// <summary>One ride.</summary>
    /// <param name="id">S01 to S15.</param>
    /// <param name="folder">The folder with the data files.</param>
    /// <returns>The ride.</returns>
    /// <exception cref="ArgumentException">No such id.</exception>
    public static Scenario Of(string id, string folder) => id switch
    {
        "S03" => new S03(folder),
        "S07" => new S07(folder),
        "S09" => new S09(folder),
        "S10" => new S10(folder),
        "S11" => new S11(folder),
        "S12" => new S12(folder),
        "S13" => new S13(folder),
        _ => throw new ArgumentException($"'{id}' is no scenario; there are {string.Join(", ", Ids)}, or 'all'.", nameof(id)),
    };
}
