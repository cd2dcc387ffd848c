using System.Reflection;
using SoloRide.Internal;

namespace SoloRide.Tests.Conventions;

/// <summary>Every public entry has a bad-input test, a property test and, where one exists, an outside check.</summary>
public sealed class EntryTests
{
    private static readonly ILookup<Type, CheckKind> Checks = typeof(EntryTests).Assembly.GetTypes()
        .SelectMany(t => t.GetCustomAttributes<ChecksAttribute>()
            .Concat(t.GetMethods(BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly)
                .SelectMany(m => m.GetCustomAttributes<ChecksAttribute>())))
        .ToLookup(c => c.Entry, c => c.Kind);

    public static TheoryData<string> Entries
        => [.. typeof(GeoPoint).Assembly.GetTypes().Where(t => t.IsDefined(typeof(EntryAttribute), false)).Select(t => t.FullName!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Entries))]
    public void Entry_HasBadInputPropertyAndOutsideChecks(string name)
    {
        Type entry = typeof(GeoPoint).Assembly.GetType(name, throwOnError: true)!;
        Assert.True(entry.IsPublic, $"{name} is marked as an entry and is not public.");
        CheckKind[] kinds = [.. Checks[entry]];
        Assert.Contains(CheckKind.BadInput, kinds);
        Assert.Contains(CheckKind.Property, kinds);
        if (entry.GetCustomAttribute<EntryAttribute>(false)!.NoOutsideCheck.Length == 0)
        {
            Assert.Contains(CheckKind.Outside, kinds);
        }
    }

    /// <summary>Who decides or computes by name is an entry.</summary>
    [Fact]
    public void CalculatorsEstimatorsPlanners_AreEntries()
    {
        string[] missing = [.. typeof(GeoPoint).Assembly.GetExportedTypes()
            .Where(t => t.Name.EndsWith("Calculator", StringComparison.Ordinal) || t.Name.EndsWith("Estimator", StringComparison.Ordinal) || t.Name.EndsWith("Planner", StringComparison.Ordinal))
            .Where(t => !t.IsDefined(typeof(EntryAttribute), false)).Select(t => t.FullName!)];
        Assert.Empty(missing);
    }
}
