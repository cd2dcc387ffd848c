using System.Reflection;
using System.Text.RegularExpressions;
using SoloRide.Internal;

namespace SoloRide.Tests.Conventions;

public sealed partial class SourcesTests
{
    private const BindingFlags All = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    [Fact]
    public void SourceIds_InCodeAndInDocs_AreTheSame()
    {
        var used = new SortedSet<string>(StringComparer.Ordinal);
        foreach (Type type in typeof(GeoPoint).Assembly.GetTypes())
        {
            Add(type);
            foreach (MemberInfo member in type.GetMembers(All))
            {
                Add(member);
            }
        }

        var listed = new SortedSet<string>(
            Row().Matches(File.ReadAllText(Repo.File("docs", "sources.md"))).Select(m => m.Groups[1].Value), StringComparer.Ordinal);
        Assert.True(used.SetEquals(listed),
            $"In code, not in docs/sources.md: {string.Join(", ", used.Except(listed))}; in docs/sources.md, not in code: {string.Join(", ", listed.Except(used))}");

        void Add(MemberInfo member)
        {
            foreach (SourceAttribute source in member.GetCustomAttributes<SourceAttribute>(false))
            {
                used.Add(source.Id);
            }
        }
    }

    [Fact]
    public void SourceRows_HaveAStatus()
    {
        foreach (string line in File.ReadAllLines(Repo.File("docs", "sources.md")).Where(l => l.StartsWith("| `", StringComparison.Ordinal)))
        {
            string[] cells = line.Split('|');
            Assert.True(cells.Length >= 6, $"A row of docs/sources.md needs id, document, edition and status: {line}");
            Assert.Contains(cells[4].Trim(), new[] { "seen", "seen in part", "second-hand", "from memory", "assumption", "derived", "data" });
        }
    }

    [GeneratedRegex(@"^\| `([a-z0-9.-]+)` \|", RegexOptions.Multiline)]
    private static partial Regex Row();
}
