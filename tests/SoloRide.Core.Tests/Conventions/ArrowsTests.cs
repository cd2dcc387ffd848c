using NetArchTest.Rules;

namespace SoloRide.Tests.Conventions;

public sealed class ArrowsTests
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Routes"] = [],
        ["Effort"] = [],
        ["Exposure"] = [],
        ["Daylight"] = [],
        ["Batteries"] = [],
        ["Kit"] = [],
        ["Contact"] = [],
        ["Hydration"] = ["Exposure"],
        ["Escape"] = ["Routes", "Effort"],
        ["Planning"] = ["Routes", "Effort", "Exposure", "Hydration", "Daylight", "Batteries", "Kit", "Escape", "Contact"],
    };

    public static TheoryData<string> Modules => [.. Allowed.Keys];

    [Theory]
    [MemberData(nameof(Modules))]
    public void Module_UsesOtherModules_OnlyAsAllowed(string module)
    {
        string[] forbidden = [.. Allowed.Keys.Where(m => m != module && !Allowed[module].Contains(m)).Select(m => "SoloRide." + m)];
        if (forbidden.Length == 0)
        {
            return;
        }

        TestResult result = Types.InAssembly(typeof(GeoPoint).Assembly)
            .That().ResideInNamespaceStartingWith("SoloRide." + module)
            .ShouldNot().HaveDependencyOnAny(forbidden).GetResult();
        Assert.True(result.IsSuccessful, $"{module} reaches where it may not: {string.Join(", ", result.FailingTypeNames ?? [])}");
    }

    [Fact]
    public void Root_UsesNoModule()
    {
        TestResult result = Types.InAssembly(typeof(GeoPoint).Assembly)
            .That().ResideInNamespaceMatching("^SoloRide(\\.Internal)?$")
            .ShouldNot().HaveDependencyOnAny([.. Allowed.Keys.Select(m => "SoloRide." + m)]).GetResult();
        Assert.True(result.IsSuccessful, $"The root reaches into a module: {string.Join(", ", result.FailingTypeNames ?? [])}");
    }

    [Fact]
    public void Namespaces_AreTheKnownOnes()
    {
        string[] known = [.. Allowed.Keys.Select(m => "SoloRide." + m), "SoloRide", "SoloRide.Internal"];
        string[] unknown = [.. typeof(GeoPoint).Assembly.GetTypes()
            .Select(t => t.Namespace ?? "").Where(n => n.StartsWith("SoloRide", StringComparison.Ordinal)).Distinct().Except(known)];
        Assert.Empty(unknown);
    }
}
