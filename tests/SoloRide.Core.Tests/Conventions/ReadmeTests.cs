namespace SoloRide.Tests.Conventions;

public sealed class ReadmeTests
{
    private static readonly string Readme = File.ReadAllText(Repo.File("README.md")).ReplaceLineEndings("\n");

    /// <summary>The sample of the README is part of a program that CI compiles and runs.</summary>
    [Fact]
    public void Sample_IsTheOneThatRuns()
    {
        string program = File.ReadAllText(Repo.File("docs", "examples", "first-plan.cs")).ReplaceLineEndings("\n");
        string ran = program[(program.IndexOf("// sample\n", StringComparison.Ordinal) + 10)..program.IndexOf("// end of sample", StringComparison.Ordinal)].Trim();
        string shown = Readme[(Readme.IndexOf("```csharp\n", StringComparison.Ordinal) + 10)..];
        shown = shown[..shown.IndexOf("\n```", StringComparison.Ordinal)].Trim();
        Assert.Equal(ran, shown);
    }

    [Fact]
    public void Readme_OpensWithTheJob_AndHasTwoCommandsOnLinesOfTheirOwn()
    {
        string[] lines = Readme.Split('\n');
        Assert.Single(lines, l => l.StartsWith("    dotnet run ", StringComparison.Ordinal));
        Assert.Single(lines, l => l.StartsWith("    dotnet test ", StringComparison.Ordinal));
        Assert.StartsWith("A rider alone on remote trails", lines[2], StringComparison.Ordinal);
        Assert.All(Cautions.Sentences, s => Assert.Contains(s, Readme, StringComparison.Ordinal));
    }

    /// <summary>Every link to a file of the repository leads somewhere.</summary>
    [Fact]
    public void Links_LeadSomewhere()
    {
        foreach (string page in Directory.GetFiles(Repo.Root, "*.md").Concat(Directory.GetFiles(Repo.File("docs"), "*.md", SearchOption.AllDirectories)))
        {
            foreach (System.Text.RegularExpressions.Match m in System.Text.RegularExpressions.Regex.Matches(File.ReadAllText(page), @"\]\(([^)#:\s]+)(#[^)]*)?\)"))
            {
                string target = Path.Combine(Path.GetDirectoryName(page)!, m.Groups[1].Value);
                Assert.True(File.Exists(target) || Directory.Exists(target), $"{Path.GetRelativePath(Repo.Root, page)} links to {m.Groups[1].Value}, which does not exist.");
            }
        }
    }
}
