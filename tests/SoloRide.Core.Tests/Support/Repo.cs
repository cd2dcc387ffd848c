using System.Runtime.CompilerServices;

namespace SoloRide.Tests;

/// <summary>Files of the repository and of the optional reference folder.</summary>
internal static class Repo
{
    public static string Root { get; } = Find();

    /// <summary>Folder of check tables that are not shipped; null when the variable SOLORIDE_REFERENCE is unset.</summary>
    public static string? Reference { get; } = Environment.GetEnvironmentVariable("SOLORIDE_REFERENCE") is { Length: > 0 } d && Directory.Exists(d) ? d : null;

    public static string File(params string[] parts) => Path.Combine([Root, .. parts]);

    /// <summary>A table that ships with the tests: Data/module/name.</summary>
    public static string Data(string module, string name) => File("tests", "SoloRide.Core.Tests", "Data", module, name);

    /// <summary>A file of the optional reference folder; skips the test with a message when the folder is absent.</summary>
    public static string ReferenceFile(params string[] parts)
    {
        Skip.If(Reference is null, "SOLORIDE_REFERENCE is unset: this check needs tables that are not shipped with the project.");
        string path = Path.Combine([Reference!, .. parts]);
        Skip.IfNot(System.IO.File.Exists(path) || Directory.Exists(path), $"The reference folder has no {string.Join('/', parts)}.");
        return path;
    }

    private static string Find([CallerFilePath] string here = "")
    {
        foreach (string start in new[] { AppContext.BaseDirectory, here })
        {
            for (DirectoryInfo? d = new(Path.GetDirectoryName(start) ?? "."); d is not null; d = d.Parent)
            {
                if (System.IO.File.Exists(Path.Combine(d.FullName, "SoloRide.Core.sln")))
                {
                    return d.FullName;
                }
            }
        }

        throw new InvalidOperationException("The repository's root was not found.");
    }
}
