namespace SoloRide.Tests;

/// <summary>Compares a text with the approved one in the repository. Set SOLORIDE_APPROVE=1 to write it anew, then read the diff.</summary>
internal static class Approved
{
    public static void Check(string text, params string[] path)
    {
        string file = Repo.File(path);
        string actual = text.ReplaceLineEndings("\n").TrimEnd() + "\n";
        if (Environment.GetEnvironmentVariable("SOLORIDE_APPROVE") == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            File.WriteAllText(file, actual);
            return;
        }

        Assert.True(File.Exists(file), $"No approved text {string.Join('/', path)}; run the tests with SOLORIDE_APPROVE=1 and read what is written.");
        string approved = File.ReadAllText(file).ReplaceLineEndings("\n").TrimEnd() + "\n";
        Assert.Equal(approved, actual);
    }
}
