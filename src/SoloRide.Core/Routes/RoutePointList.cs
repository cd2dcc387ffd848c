using System.Collections;

namespace SoloRide.Routes;

/// <summary>A view of columns as a list of points.</summary>
internal sealed class RoutePointList(RouteColumns columns, int start, int count) : IReadOnlyList<RoutePoint>
{
    public int Count => count;

    public RoutePoint this[int index]
    {
        get
        {
            if ((uint)index >= (uint)count)
            {
                throw new ArgumentOutOfRangeException(nameof(index), index, $"The route has points 0 to {count - 1}.");
            }

            int i = start + index;
            long ticks = columns.UtcTicks is { } t ? t[i] : RouteColumns.NoTime;
            return new RoutePoint(
                new GeoPoint(columns.LatDeg[i], columns.LonDeg[i], columns.ElevationM is { } e ? e[i] : double.NaN),
                ticks == RouteColumns.NoTime ? null : new DateTimeOffset(ticks, TimeSpan.Zero));
        }
    }

    public IEnumerator<RoutePoint> GetEnumerator()
    {
        for (int i = 0; i < count; i++)
        {
            yield return this[i];
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
