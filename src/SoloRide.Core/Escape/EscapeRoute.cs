using System.Collections.Immutable;
using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A route with its exits and the trails beside it: what an <see cref="ExitGraph"/> is made of.</summary>
/// <remarks>Immutable.</remarks>
public sealed record EscapeRoute
{
    /// <summary>The route, from its start.</summary>
    public required IReadOnlyList<TrailStep> Steps { get; init => field = [.. Guard.NotNull(value, nameof(Steps))]; }

    /// <summary>Places where being alone ends; the start and the finish only if they are listed.</summary>
    public required IReadOnlyList<ExitPoint> Exits { get; init => field = [.. Guard.NotNull(value, nameof(Exits))]; }

    /// <summary>Places at the ends of the steps, one more than steps; empty when not known. Needed for exits given by place alone.</summary>
    public IReadOnlyList<GeoPoint> Places { get; init => field = [.. Guard.NotNull(value, nameof(Places))]; } = [];

    /// <summary>Trails beside the route; without them the only way out is along the route.</summary>
    public IReadOnlyList<EscapeTrail> Trails { get; init => field = [.. Guard.NotNull(value, nameof(Trails))]; } = [];

    /// <summary>Takes steps and places from a profile.</summary>
    /// <param name="profile">The route with its heights.</param>
    /// <param name="exits">Exits, by distance along the route or by place.</param>
    /// <param name="trails">Trails beside the route; null for none.</param>
    /// <param name="spacing">Longest step; null for 50 m.</param>
    /// <returns>The route with its exits.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A spacing outside 1 m to 10 km.</exception>
    public static EscapeRoute Of(ElevationProfile profile, IReadOnlyList<ExitPoint> exits, IReadOnlyList<EscapeTrail>? trails = null, Length? spacing = null)
    {
        ImmutableArray<TrailStep> steps = Guard.NotNull(profile).Steps(spacing ?? Length.FromMeters(EscapeConstants.TrailSpacingM));
        var places = new GeoPoint[steps.Length + 1];
        double m = 0, lengthM = profile.Route.Length.Meters;
        places[0] = Place(profile, 0);
        for (int i = 0; i < steps.Length; i++)
        {
            m += steps[i].LengthM;
            places[i + 1] = Place(profile, i == steps.Length - 1 ? lengthM : Math.Min(m, lengthM));
        }

        return new EscapeRoute { Steps = steps, Exits = exits, Places = places, Trails = trails ?? [] };
    }

    private static GeoPoint Place(ElevationProfile profile, double alongM)
    {
        var along = Length.FromMeters(alongM);
        GeoPoint p = profile.Route.PointAt(along);
        return new GeoPoint(p.LatDeg, p.LonDeg, profile.ElevationAt(along)?.Meters ?? double.NaN);
    }
}
