using System.Reflection;
using System.Text.RegularExpressions;

namespace SoloRide.Tests.Conventions;

/// <summary>Every public type stands in an example or a notebook, or in the signature of one that does.</summary>
public sealed partial class ExamplesTests
{
    [Fact]
    public void EveryPublicType_IsInAnExampleOrReachedByOne()
    {
        Type[] all = typeof(GeoPoint).Assembly.GetExportedTypes();
        string docs = Repo.File("docs");
        var words = new HashSet<string>(StringComparer.Ordinal);
        foreach (string file in Directory.EnumerateFiles(docs, "*", SearchOption.AllDirectories)
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) || f.EndsWith(".ipynb", StringComparison.Ordinal))
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)))
        {
            foreach (Match m in Word().Matches(File.ReadAllText(file)))
            {
                words.Add(m.Value);
            }
        }

        var reached = new HashSet<Type>(all.Where(t => words.Contains(Plain(t))));
        Assert.True(reached.Count > 50);
        var next = new Queue<Type>(reached);
        while (next.TryDequeue(out Type? t))
        {
            foreach (Type used in Signatures(t).SelectMany(Parts).Where(u => u.Assembly == t.Assembly && u.IsVisible && reached.Add(u)))
            {
                next.Enqueue(used);
            }
        }

        string missing = string.Join(", ", all.Except(reached).Select(t => t.FullName!).Order(StringComparer.Ordinal));
        Assert.True(missing.Length == 0, missing);
    }

    /// <summary>Every block of C# in the docs stands, line for line, in an example that CI compiles and runs.</summary>
    [Fact]
    public void EveryBlockOfTheDocs_IsPartOfAnExample()
    {
        string[] examples = [.. Directory.GetFiles(Repo.File("docs", "examples"), "*.cs").Select(f => Lines(File.ReadAllText(f)))];
        int blocks = 0;
        foreach (string page in Directory.GetFiles(Repo.File("docs"), "*.md", SearchOption.AllDirectories).Where(f => Path.GetFileName(Path.GetDirectoryName(f)) != "notebooks"))
        {
            foreach (Match block in Block().Matches(File.ReadAllText(page).ReplaceLineEndings("\n")))
            {
                blocks++;
                Assert.True(examples.Any(e => e.Contains(Lines(block.Groups[1].Value), StringComparison.Ordinal)), $"{Path.GetFileName(page)}: {block.Groups[1].Value}");
            }
        }

        Assert.True(blocks >= 8);
    }

    /// <summary>The calls of the page of tasks are public.</summary>
    [Fact]
    public void EveryCallOfTheTasks_Exists()
    {
        string surface = string.Concat(Directory.GetFiles(Repo.File("tests"), "*.txt", SearchOption.AllDirectories).Where(f => Path.GetFileName(Path.GetDirectoryName(f)) == "PublicApi").Select(File.ReadAllText));
        var known = new HashSet<string>(Word().Matches(surface).Select(m => m.Value), StringComparer.Ordinal);
        string[] calls = [.. CodeSpan().Matches(File.ReadAllText(Repo.File("docs", "tasks.md"))).Select(m => m.Groups[1].Value).Where(c => !c.Contains('/', StringComparison.Ordinal))];
        Assert.True(calls.Length > 40);
        Assert.DoesNotContain(calls.SelectMany(c => Word().Matches(c).Select(m => m.Value)), w => char.IsUpper(w[0]) && !known.Contains(w));
    }

    private static string Lines(string text) => string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Select(l => l.Trim()).Where(l => l.Length > 0));

    private static string Plain(Type t) => t.Name.Split('`')[0];

    private static IEnumerable<Type> Signatures(Type t)
    {
        const BindingFlags Public = BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
        foreach (PropertyInfo p in t.GetProperties(Public))
        {
            yield return p.PropertyType;
        }

        foreach (FieldInfo f in t.GetFields(Public))
        {
            yield return f.FieldType;
        }

        foreach (MethodInfo m in t.GetMethods(Public))
        {
            yield return m.ReturnType;
            foreach (ParameterInfo p in m.GetParameters())
            {
                yield return p.ParameterType;
            }
        }

        foreach (ParameterInfo p in t.GetConstructors(Public).SelectMany(c => c.GetParameters()))
        {
            yield return p.ParameterType;
        }

        foreach (Type i in t.GetInterfaces())
        {
            yield return i;
        }
    }

    private static IEnumerable<Type> Parts(Type t)
    {
        if (t.HasElementType)
        {
            return Parts(t.GetElementType()!);
        }

        return t.IsGenericType ? t.GetGenericArguments().SelectMany(Parts).Append(t.GetGenericTypeDefinition()) : [t];
    }

    [GeneratedRegex("```csharp\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Block();

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex CodeSpan();

    [GeneratedRegex("[A-Za-z_][A-Za-z0-9_]*")]
    private static partial Regex Word();
}
