using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>What the entries that follow a ride have in common.</summary>
internal static class RideSteps
{
    private const int MaxParts = 100_000;

    public static void Check(ReadOnlySpan<DateTimeOffset> instants, ReadOnlySpan<GeoPoint> places)
    {
        Guard.SameLength(instants.Length, places.Length, nameof(places));
        if (instants.Length == 0)
        {
            throw new ArgumentException("instants is empty; at least one step is needed.", nameof(instants));
        }

        for (int i = 1; i < instants.Length; i++)
        {
            if (instants[i] < instants[i - 1])
            {
                throw new ArgumentException(
                    string.Create(CultureInfo.InvariantCulture, $"instants[{i}] ({instants[i]:O}) lies before the step before it ({instants[i - 1]:O}); steps must ascend."), nameof(instants));
            }
        }
    }

    /// <summary>Parts of a step so that none is longer than a limit.</summary>
    public static int Parts(TimeSpan step, TimeSpan limit) => (int)Math.Clamp((step.Ticks + limit.Ticks - 1) / limit.Ticks, 1, MaxParts);

    /// <summary>A place on the way between two neighbours.</summary>
    public static GeoPoint Between(GeoPoint a, GeoPoint b, double share)
    {
        if (share >= 1)
        {
            return b;
        }

        double lon = a.LonDeg + (share * Math.IEEERemainder(b.LonDeg - a.LonDeg, 360));
        lon = lon > 180 ? lon - 360 : lon < -180 ? lon + 360 : lon;
        return new GeoPoint(a.LatDeg + (share * (b.LatDeg - a.LatDeg)), lon, a.ElevationM + (share * (b.ElevationM - a.ElevationM)));
    }
}
