using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using UnitsNet;

namespace SoloRide.Tests.Conventions;

/// <summary>Default values of every options record, written out: a changed default changes results and must be seen in a diff.</summary>
public sealed class DefaultsTests
{
    [Fact]
    public void Defaults_AreTheApprovedOnes()
    {
        var b = new StringBuilder();
        foreach (Type type in typeof(GeoPoint).Assembly.GetExportedTypes()
            .Where(t => t is { IsAbstract: false, IsClass: true } && t.GetConstructor(Type.EmptyTypes) is not null && !t.GetProperties().Any(IsRequired))
            .OrderBy(t => t.FullName, StringComparer.Ordinal))
        {
            object value = Activator.CreateInstance(type)!;
            foreach (PropertyInfo p in type.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
                .Where(p => p.SetMethod is not null && p.GetIndexParameters().Length == 0).OrderBy(p => p.Name, StringComparer.Ordinal))
            {
                b.Append(CultureInfo.InvariantCulture, $"{type.FullName}.{p.Name} = {Words(p.GetValue(value))}\n");
            }
        }

        Approved.Check(b.ToString(), "tests", "SoloRide.Core.Tests", "Conventions", "defaults.txt");
    }

    private static bool IsRequired(PropertyInfo p) => p.IsDefined(typeof(System.Runtime.CompilerServices.RequiredMemberAttribute), false);

    private static string Words(object? value) => value switch
    {
        null => "null",
        string s => $"\"{s}\"",
        IQuantity q => ((double)q.ToUnit(q.QuantityInfo.BaseUnitInfo.Value).Value).ToString("G10", CultureInfo.InvariantCulture) + " " + q.QuantityInfo.BaseUnitInfo.Value,
        double d => d.ToString("G10", CultureInfo.InvariantCulture),
        IFormattable f => f.ToString(null, CultureInfo.InvariantCulture),
        IDictionary d => $"{d.Count} entries",
        IEnumerable e => $"{e.Cast<object>().Count()} items",
        _ => value.GetType().Name,
    };
}
