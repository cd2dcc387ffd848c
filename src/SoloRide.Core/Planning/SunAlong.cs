using SoloRide.Daylight;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>The skyline along the route, from profiles that were given or from terrain: whether the Sun's disc reaches the rider. It decides warmth and ice, not twilight.</summary>
internal sealed class SunAlong
{
    [Source("assumption-skyline-reach", "a given skyline holds this far from its place")]
    private const double ReachM = 2000;

    private const double NodeM = 500;
    private const double LowestLookRad = -5 * Math.PI / 180;
    private static readonly HorizonOptions StationHorizon = new() { Azimuths = 180, NearStep = Length.FromMeters(10) };

    private readonly RideCourse _course;
    private readonly ITerrainHeights? _terrain;
    private readonly HorizonProfile?[] _given;
    private readonly Dictionary<int, HorizonProfile?> _station = [];
    private readonly double[] _distances = HorizonKernel.Distances(10, 30_000);

    private SunAlong(RideCourse course, ITerrainHeights? terrain, HorizonProfile?[] given)
    {
        _course = course;
        _terrain = terrain;
        _given = given;
    }

    /// <summary>Null when neither skylines nor terrain are known.</summary>
    public static SunAlong? Of(RideRequest request, RideCourse course, ITerrainHeights? terrain)
    {
        if (terrain is null && request.Skylines.Count == 0)
        {
            return null;
        }

        var given = new HorizonProfile?[(int)Math.Ceiling(course.TotalM / NodeM) + 1];
        for (int n = 0; n < given.Length; n++)
        {
            GeoPoint at = course.PlaceAt(Math.Min(n * NodeM, course.TotalM));
            double nearest = ReachM;
            foreach (HorizonProfile p in request.Skylines)
            {
                // A profile without a place holds everywhere.
                double d = p.Place is { } place ? GeodesyKernel.DistanceM(at.LatDeg, at.LonDeg, place.LatDeg, place.LonDeg) : ReachM;
                if (d <= nearest && (given[n] is null || d < nearest))
                {
                    nearest = d;
                    given[n] = p;
                }
            }
        }

        return new SunAlong(course, terrain, given);
    }

    /// <summary>Whether any skyline is known at a distance along the route.</summary>
    public bool Knows(double alongM) => _terrain is not null || Given(alongM) is not null;

    /// <summary>Whether the Sun's disc is seen, and whether it stands above a free horizon.</summary>
    public (bool InSun, bool Up) At(double alongM, DateTimeOffset instant)
    {
        GeoPoint place = _course.PlaceAt(alongM);
        SolarPosition sun = SolarPosition.At(instant, place);
        double altitude = sun.AltitudeDeg * (Math.PI / 180), azimuth = sun.AzimuthDeg * (Math.PI / 180);
        bool up = altitude > SunEventsKernel.RiseSetAltitudeDeg * (Math.PI / 180);
        if (altitude < LowestLookRad)
        {
            return (false, false);
        }

        return (altitude > SunShadeKernel.ThresholdRad(Skyline(alongM, place, azimuth, up), 1), up);
    }

    /// <summary>The last direct sun of a day at a place of the route; null when there is none or no skyline is known.</summary>
    public DateTimeOffset? LastSun(int station, DateOnly day, ZoneOffsets zone)
    {
        double alongM = _course.Stations[station].AlongM;
        GeoPoint place = _course.PlaceAt(alongM);
        if (!_station.TryGetValue(station, out HorizonProfile? profile))
        {
            profile = Given(alongM) ?? (_terrain is null ? null : HorizonProfile.Of(place, _terrain, StationHorizon));
            _station[station] = profile;
        }

        return profile is null ? null : DirectSunDay.On(day, place, zone, profile).LastSun;
    }

    private HorizonProfile? Given(double alongM) => _given[Math.Clamp((int)Math.Round(alongM / NodeM), 0, _given.Length - 1)];

    private double Skyline(double alongM, GeoPoint place, double azimuthRad, bool up)
    {
        if (Given(alongM) is { } profile)
        {
            return profile.AltitudeRad(azimuthRad);
        }

        if (_terrain is null || !up)
        {
            return 0;
        }

        _ = HorizonProfile.Ground(place, _terrain, out double groundM);
        int unknown = 0;
        double t = HorizonKernel.Tangent(_terrain, place.LatDeg, place.LonDeg, groundM + 1.6, azimuthRad, _distances, HorizonKernel.StandardRefraction, ref unknown);
        return double.IsNaN(t) ? 0 : Math.Atan(t);
    }
}
