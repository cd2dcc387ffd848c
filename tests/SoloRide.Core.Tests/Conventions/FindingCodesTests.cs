using System.Reflection;
using System.Text.RegularExpressions;

namespace SoloRide.Tests.Conventions;

/// <summary>Finding codes are constants of internal classes whose names end in <c>FindingCodes</c>, and rows of docs/findings.md.</summary>
public sealed partial class FindingCodesTests
{
    [Fact]
    public void FindingCodes_InCodeAndInDocs_AreTheSame()
    {
        var used = new SortedSet<string>(
            typeof(GeoPoint).Assembly.GetTypes().Where(t => t.Name.EndsWith("FindingCodes", StringComparison.Ordinal))
                .SelectMany(t => t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic))
                .Where(f => f.IsLiteral).Select(f => (string)f.GetRawConstantValue()!),
            StringComparer.Ordinal);
        var listed = new SortedSet<string>(
            Row().Matches(File.ReadAllText(Repo.File("docs", "findings.md"))).Select(m => m.Groups[1].Value), StringComparer.Ordinal);
        Assert.True(used.SetEquals(listed),
            $"In code, not in docs/findings.md: {string.Join(", ", used.Except(listed))}; in docs/findings.md, not in code: {string.Join(", ", listed.Except(used))}");
    }

    [Fact]
    public void FindingCodes_NameTheirModule()
    {
        foreach (Type t in typeof(GeoPoint).Assembly.GetTypes().Where(t => t.Name.EndsWith("FindingCodes", StringComparison.Ordinal)))
        {
            foreach (FieldInfo f in t.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic).Where(f => f.IsLiteral))
            {
                Assert.Matches("^[a-z]+\\.[a-z0-9-]+$", (string)f.GetRawConstantValue()!);
            }
        }
    }

    [GeneratedRegex(@"^\| `([a-z]+\.[a-z0-9-]+)` \|", RegexOptions.Multiline)]
    private static partial Regex Row();
}
