using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Small made rides for the tests of the planner.</summary>
internal static class Rides
{
    public static readonly DateTimeOffset Start = new(2027, 6, 14, 8, 0, 0, TimeSpan.FromHours(-6));

    /// <summary>A line due north with waves of height.</summary>
    public static RideRoute Line(double km = 20, double amplitudeM = 60, double waveKm = 5, double baseM = 1500, bool heights = true)
    {
        int n = (int)(km * 20);
        var points = new List<GeoPoint>();
        for (int i = 0; i <= n; i++)
        {
            double at = km * i / n;
            double lat = 38 + (at * 1000 / 111_000);
            points.Add(new GeoPoint(lat, -109, heights ? baseM + (amplitudeM * Math.Sin(2 * Math.PI * at / waveKm)) : double.NaN));
        }

        return RideRoute.FromPoints(points, "Test Line");
    }

    public static Forecast Weather(double airC = 22, double humidityPct = 40, int fromHour = 0, int hours = 72, double thunderFrom = 999)
        => new([new ForecastPlace("test", null, Enumerable.Range(0, hours + 1).Select(h => new ForecastHour(
            new DateTimeOffset(2027, 6, 14, 0, 0, 0, TimeSpan.FromHours(-6)).AddHours(fromHour + h),
            new Weather
            {
                AirTempC = airC, RelHumidityPct = humidityPct, WindMps = 2, WindFromDeg = 200, GustMps = 3, CloudPct = 20, PrecipMm = 0, ThunderPct = h >= thunderFrom ? 70 : 0,
            })))]);

    public static RideRequest Request(RideRoute? route = null, int samples = 200) => new()
    {
        Route = route ?? Line(),
        Start = Start,
        PreparedAt = Start.AddHours(-12),
        Zone = ZoneOffsets.Fixed(-6),
        Rider = new Rider { Mass = Mass.FromKilograms(76), Height = Length.FromCentimeters(178), SustainedPower = Power.FromWatts(160) },
        Load = new Load { WaterCapacity = Volume.FromLiters(6) },
        Weather = Weather(),
        Exits = [new ExitPoint { Name = "Half Way Road", AlongRoute = Length.FromKilometers(10) }],
        Options = new PlanOptions { Samples = samples },
    };
}
