using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using PublicApiGenerator;

namespace SoloRide.Tests.Conventions;

public sealed partial class PublicSurfaceTests
{
    private static readonly Assembly Core = typeof(GeoPoint).Assembly;

    public static TheoryData<string> Namespaces
        => [.. Core.GetExportedTypes().Select(t => t.Namespace!).Distinct().Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Namespaces))]
    public void PublicSurface_IsTheApprovedOne(string ns)
    {
        string text = ApiGenerator.GeneratePublicApi(
            [.. Core.GetExportedTypes().Where(t => t.Namespace == ns && !t.IsNested)],
            new ApiGeneratorOptions { IncludeAssemblyAttributes = false });
        Approved.Check(text, "tests", "SoloRide.Core.Tests", "Conventions", "PublicApi", ns + ".txt");
    }

    /// <summary>A bare double is public only where its name ends in a unit, or in Fraction, Factor, Probability or Level.</summary>
    [Fact]
    public void BareDoubles_NameTheirUnit()
    {
        var bad = new SortedSet<string>(StringComparer.Ordinal);
        foreach (Type type in Core.GetExportedTypes())
        {
            foreach (PropertyInfo p in type.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly))
            {
                if (IsBare(p.PropertyType) && !Unit().IsMatch(p.Name))
                {
                    bad.Add($"{type.Name}.{p.Name}");
                }
            }

            foreach (MethodBase m in type.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly)
                .Cast<MethodBase>().Concat(type.GetConstructors()))
            {
                if (m.Name is "Equals" or "GetHashCode" or "Deconstruct" || m.IsDefined(typeof(CompilerGeneratedAttribute)) || m.IsSpecialName && m is MethodInfo)
                {
                    continue;
                }

                foreach (ParameterInfo p in m.GetParameters().Where(p => IsBare(p.ParameterType) && !Unit().IsMatch(p.Name!)))
                {
                    bad.Add($"{type.Name}.{m.Name}({p.Name})");
                }

                if (m is MethodInfo info && IsBare(info.ReturnType) && !Unit().IsMatch(m.Name))
                {
                    bad.Add($"{type.Name}.{m.Name}() returns");
                }
            }
        }

        Assert.True(bad.Count == 0, "Bare numbers without a unit in their names: " + string.Join(", ", bad));
    }

    [Fact]
    public void Names_KeepAwayFromForbiddenWords()
    {
        string[] bad = [.. Core.GetExportedTypes()
            .SelectMany(t => t.GetMembers(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly).Select(m => m.Name).Append(t.Name))
            .Where(n => Forbidden().IsMatch(n)).Distinct()];
        Assert.Empty(bad);
    }

    private static bool IsBare(Type t)
    {
        t = t.IsByRef ? t.GetElementType()! : t;
        t = Nullable.GetUnderlyingType(t) ?? t;
        if (t == typeof(double) || t == typeof(float))
        {
            return true;
        }

        if (t.IsArray)
        {
            return IsBare(t.GetElementType()!);
        }

        return t.IsGenericType && t.GetGenericArguments() is [var only]
            && (t.GetGenericTypeDefinition() == typeof(ReadOnlySpan<>) || t.GetGenericTypeDefinition() == typeof(Span<>)
                || t.GetGenericTypeDefinition() == typeof(IReadOnlyList<>) || t.GetGenericTypeDefinition() == typeof(System.Collections.Immutable.ImmutableArray<>))
            && IsBare(only);
    }

    // Case matters: the unit begins with a capital inside a name, or is the whole (lower-case) name of a parameter.
    [GeneratedRegex("(Deg|Rad|Arcsec|Km|Cm|Mm|Um|M|M2|M3|Ft|Mi|S|Ms|Min|Minutes|Hours|Hour|H|Days|Years|Kg|G|Mg|Lb|L|Ml|C|K|F|Pa|Hpa|Kpa|Bar|Psi|Dbm|W|Mw|Wh|Mwh|Kcal|J|Kj|N|Mps|Kmh|Mph|Pct|Percent|Lux|Lx|Lm|Cd|V|Ohm|A|Ma|Ah|Mah|Clo|Met|Mmol|Db|Mhz|Bpm|Rpm|PerHour|PerDay|PerKm|PerMin|PerKg|PerL|PerM|PerW|PerM2|PerC|PerK|PerKgMin|PerKgM|Fraction|Factor|Probability|Level|Exponent|Ratio|^m|^s|^deg|^fraction|^factor|^probability|^level)$")]
    private static partial Regex Unit();

    [GeneratedRegex("Segment(?!al)|Readiness|Score|Effortscore|Heatmap")]
    private static partial Regex Forbidden();
}
