using System.Globalization;
using System.Runtime.CompilerServices;

namespace SoloRide.Tests;

/// <summary>The whole suite runs under a culture that writes decimals with a comma and counts years by another calendar: whatever depends on the machine's culture shows.</summary>
internal static class CommaCulture
{
    [ModuleInitializer]
    internal static void Set()
    {
        CultureInfo other = CultureInfo.InvariantCulture;
        try
        {
            // Years by the Thai solar calendar: 2027 is 2570.
            other = CultureInfo.GetCultureInfo("th-TH");
        }
        catch (CultureNotFoundException)
        {
            // A machine without culture data has the invariant one alone.
        }

        var comma = (CultureInfo)other.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        comma.NumberFormat.PercentDecimalSeparator = ",";
        comma.DateTimeFormat.DateSeparator = ".";
        comma.DateTimeFormat.ShortDatePattern = "dd.MM.yyyy";
        CultureInfo.DefaultThreadCurrentCulture = comma;
        CultureInfo.CurrentCulture = comma;
    }
}
