using System.Globalization;
using System.Runtime.CompilerServices;

namespace SoloRide.Tests;

/// <summary>The whole suite runs under a culture that writes decimals with a comma: whatever depends on the machine's culture shows.</summary>
internal static class CommaCulture
{
    [ModuleInitializer]
    internal static void Set()
    {
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        comma.NumberFormat.PercentDecimalSeparator = ",";
        comma.DateTimeFormat.DateSeparator = ".";
        comma.DateTimeFormat.ShortDatePattern = "dd.MM.yyyy";
        CultureInfo.DefaultThreadCurrentCulture = comma;
        CultureInfo.CurrentCulture = comma;
    }
}
