using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Accuracy;

/// <summary>Reads the rows of the universal index table through the public entry; units <c>ip</c> are F and feet a second.</summary>
internal static class UtciTable
{
    /// <summary>The index in the row's own unit, and whether one is given.</summary>
    public static (double Index, bool Given) Index(CsvRow row)
    {
        bool ip = row["units"] == "ip";
        double C(string column) => ip ? (row.Num(column) - 32) / 1.8 : row.Num(column);
        OutdoorHeat heat = OutdoorHeat.At(new OutdoorConditions
        {
            AirTemperature = Temperature.FromDegreesCelsius(C("tdb")),
            MeanRadiantTemperature = Temperature.FromDegreesCelsius(C("tr")),
            RelHumidityPct = row.Num("rh"),
            Wind = Speed.FromMetersPerSecond(row.Num("v") * (ip ? 0.3048 : 1)),
            WindHeight = Length.FromMeters(10),
            SunAltitudeDeg = -10,
            GlobalIrradiance = Irradiance.FromWattsPerSquareMeter(0),
        });
        return heat.UniversalIndex is { } t ? (ip ? t.DegreesFahrenheit : t.DegreesCelsius, true) : (double.NaN, false);
    }
}
