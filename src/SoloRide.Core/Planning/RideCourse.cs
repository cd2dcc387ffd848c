using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>The route as the plan reads it: steps, their ends, stations, places. Made once a request, whatever the start.</summary>
internal sealed class RideCourse
{
    public const string Again = " (again)";
    private const double SamePlaceM = 150;
    public const double OffRouteM = 200;

    private RideCourse(RideRoute route, ElevationProfile profile, TrailStep[] steps)
    {
        Route = route;
        Profile = profile;
        Steps = steps;
        EndM = new double[steps.Length];
        double m = 0;
        for (int i = 0; i < steps.Length; i++)
        {
            m += steps[i].LengthM;
            EndM[i] = m;
        }

        TotalM = m;
        Places = new GeoPoint[steps.Length + 1];
        for (int i = 0; i <= steps.Length; i++)
        {
            double along = i == 0 ? 0 : Math.Min(EndM[i - 1], route.Length.Meters);
            GeoPoint p = route.PointAt(Length.FromMeters(along));
            Places[i] = profile.HasHeights && profile.ElevationAt(Length.FromMeters(along)) is { } h ? new GeoPoint(p.LatDeg, p.LonDeg, h.Meters) : p;
        }
    }

    /// <summary>A way out that the route passes twice has one name for people.</summary>
    public static string Plain(string exit) => exit.EndsWith(Again, StringComparison.Ordinal) ? exit[..^Again.Length] : exit;

    public RideRoute Route { get; }

    public ElevationProfile Profile { get; }

    public TrailStep[] Steps { get; }

    /// <summary>Distance at the end of each step [m].</summary>
    public double[] EndM { get; }

    public double TotalM { get; }

    /// <summary>Places at the start and at the end of each step.</summary>
    public GeoPoint[] Places { get; }

    public IReadOnlyList<StationSeed> Stations { get; private set; } = [];

    /// <summary>Step whose end a station stands at; -1 for the start.</summary>
    public int[] StepOfStation { get; private set; } = [];

    /// <summary>Ways out with their distance along the route where they lie on it.</summary>
    public IReadOnlyList<ExitPoint> Exits { get; private set; } = [];

    public static RideCourse? Of(RideRequest request, ITerrainHeights? terrain, List<Finding> findings)
    {
        RideRoute route = request.Route;
        findings.AddRange(route.Findings);
        if (!route.HasHeights && terrain is not null)
        {
            route = Drape(route, terrain);
        }

        ElevationProfile profile = ElevationProfile.Of(route);
        findings.AddRange(profile.Findings);
        TrailStep[] steps = [.. profile.Steps(request.Options.StepLength)];
        if (steps.Length == 0)
        {
            return null;
        }

        var course = new RideCourse(route, profile, steps);
        course.PutStations(request, findings);
        return course;
    }

    public GeoPoint PlaceAt(double alongM) => Places[StepEndingAt(alongM) + 1];

    /// <summary>Step whose end is nearest to a distance; -1 for the start.</summary>
    public int StepEndingAt(double alongM)
    {
        int i = Array.BinarySearch(EndM, alongM);
        if (i >= 0)
        {
            return i;
        }

        i = ~i;
        if (i >= EndM.Length)
        {
            return EndM.Length - 1;
        }

        double before = i == 0 ? 0 : EndM[i - 1];
        return alongM - before < EndM[i] - alongM ? i - 1 : i;
    }

    private static RideRoute Drape(RideRoute route, ITerrainHeights terrain)
    {
        int n = route.Points.Count;
        var lat = new double[n];
        var lon = new double[n];
        var h = new double[n];
        for (int i = 0; i < n; i++)
        {
            lat[i] = route.Points[i].Place.LatDeg;
            lon[i] = route.Points[i].Place.LonDeg;
        }

        terrain.HeightsM(lat, lon, h);
        RideRoute draped = RideRoute.FromPoints(Enumerable.Range(0, n).Select(i => new GeoPoint(lat[i], lon[i], h[i])), route.Name);
        return draped.WithWaypoints(route.Waypoints).WithSections(route.Sections);
    }

    private void PutStations(RideRequest request, List<Finding> findings)
    {
        var seeds = new List<StationSeed>();
        for (int k = 0; k < request.Sources.Count; k++)
        {
            WaterSource s = request.Sources[k];
            foreach (double m in Along(s.Name, s.Place, s.AlongRoute, findings))
            {
                seeds.Add(new StationSeed(s.Name, StationKind.Water, m, k));
            }
        }

        var exits = new List<ExitPoint>();
        foreach (ExitPoint e in request.Exits)
        {
            double[] along = [.. Along(e.Name, e.Place, e.AlongRoute, findings)];
            if (along.Length == 0)
            {
                exits.Add(e);
                continue;
            }

            exits.Add(e.AlongRoute is null ? e with { AlongRoute = Length.FromMeters(along[0]) } : e);
            for (int i = 0; i < along.Length; i++)
            {
                seeds.Add(new StationSeed(Plain(e.Name), StationKind.Exit, along[i]));
                if (i > 0 && along[i] - along[0] > SamePlaceM)
                {
                    exits.Add(e with { Name = e.Name + Again, AlongRoute = Length.FromMeters(along[i]) });
                }
            }
        }

        if (request.EndsAreExits)
        {
            AddEnd(exits, "start", 0);
            AddEnd(exits, "finish", TotalM);
        }

        Exits = exits;
        foreach (Deadline d in request.Deadlines)
        {
            seeds.Add(new StationSeed(d.Name, StationKind.Place, Math.Min(d.From.Meters, TotalM), OfClock: true));
            seeds.Add(new StationSeed(d.Name + ", end", StationKind.Place, Math.Min(d.To.Meters, TotalM), OfClock: true));
        }

        foreach (double m in request.Options.StopAtM)
        {
            seeds.Add(new StationSeed("regroup", StationKind.Place, Math.Min(m, TotalM)));
        }

        foreach (RouteWaypoint w in Route.Waypoints.Where(w => w.Name.Length > 0 && w.Type is not RidePlan.NoReturnType and not RidePlan.MessageType))
        {
            RoutePass pass = Route.Nearest(w.Place);
            if (pass.Offset.Meters <= OffRouteM && !seeds.Any(s => s.Name == w.Name))
            {
                seeds.Add(new StationSeed(w.Name, StationKind.Place, pass.DistanceAlong.Meters));
            }
        }

        if (Profile.HasHeights)
        {
            int top = 0;
            for (int i = 1; i < Places.Length; i++)
            {
                top = Places[i].ElevationM > Places[top].ElevationM ? i : top;
            }

            seeds.Add(new StationSeed("highest point", StationKind.Top, top == 0 ? 0 : EndM[top - 1]));
        }

        if (!Route.IsLoop || Retraces())
        {
            AddTurn(seeds);
        }

        StationSeed first = Named(seeds, 0, "start", StationKind.Start);
        StationSeed last = Named(seeds, TotalM, "finish", StationKind.Finish);
        var kept = new List<StationSeed> { first, last };
        foreach (StationSeed s in seeds.OrderBy(s => Rank(s.Kind)).ThenBy(s => s.AlongM).ThenBy(s => s.Name, StringComparer.Ordinal))
        {
            // A source keeps a station of its own even beside another place: water is filled there.
            if (s.Source >= 0 ? kept.All(k => k.Source != s.Source || Math.Abs(k.AlongM - s.AlongM) > SamePlaceM) : kept.All(k => Math.Abs(k.AlongM - s.AlongM) > SamePlaceM))
            {
                kept.Add(s);
            }
        }

        kept = [.. kept.OrderBy(s => s.AlongM).ThenBy(s => Rank(s.Kind))];
        double spacing = request.Options.StationSpacing.Meters;
        for (int i = 1; i < kept.Count; i++)
        {
            double gap = kept[i].AlongM - kept[i - 1].AlongM;
            int parts = (int)Math.Ceiling((gap / spacing) - 1e-9);
            double from = kept[i - 1].AlongM;
            for (int p = 1; p < parts; p++)
            {
                kept.Insert(i++, new StationSeed("-", StationKind.Mark, from + (gap * p / parts)));
            }
        }

        // Two stations on one step end would have no leg between them: the later one moves on by a step, or goes when there is none.
        var stations = new List<StationSeed>();
        var at = new List<int>();
        foreach (StationSeed s in kept)
        {
            int step = s.Kind == StationKind.Start ? -1 : s.Kind == StationKind.Finish ? Steps.Length - 1 : StepEndingAt(s.AlongM);
            if (at.Count > 0 && step <= at[^1])
            {
                step = at[^1] + 1;
            }

            if (s.Kind != StationKind.Finish && step >= Steps.Length - 1)
            {
                continue;
            }

            stations.Add(s);
            at.Add(Math.Min(step, Steps.Length - 1));
        }

        Stations = stations;
        StepOfStation = [.. at];
    }

    private static int Rank(StationKind kind) => kind switch
    {
        StationKind.Start => 0,
        StationKind.Finish => 1,
        StationKind.Water => 2,
        StationKind.Exit => 3,
        StationKind.Place => 4,
        StationKind.Turn => 5,
        StationKind.Top => 6,
        _ => 7,
    };

    private static StationSeed Named(List<StationSeed> seeds, double m, string name, StationKind kind)
    {
        StationSeed? own = seeds.Where(s => s.Source < 0 && !s.OfClock && Math.Abs(s.AlongM - m) <= SamePlaceM && s.Kind is StationKind.Exit or StationKind.Place).OrderBy(s => Math.Abs(s.AlongM - m)).FirstOrDefault();
        return new StationSeed(own is null ? name : own.Name, kind, m);
    }

    private static void AddEnd(List<ExitPoint> exits, string name, double m)
    {
        if (!exits.Any(e => e.AlongRoute is { } a && Math.Abs(a.Meters - m) <= SamePlaceM))
        {
            exits.Add(new ExitPoint { Name = name, AlongRoute = Length.FromMeters(m), Kind = ExitKind.Trailhead });
        }
    }

    private void AddTurn(List<StationSeed> seeds)
    {
        // The farthest place from the start is the turning point when the ends lie near each other.
        double end = Flat(Places[0], Places[^1]);
        int far = 0;
        double most = 0;
        for (int i = 1; i < Places.Length; i++)
        {
            double d = Flat(Places[0], Places[i]);
            if (d > most)
            {
                most = d;
                far = i;
            }
        }

        if (far > 0 && end < 0.2 * most)
        {
            seeds.Add(new StationSeed("turning point", StationKind.Turn, EndM[far - 1]));
        }
    }

    /// <summary>Whether the way back is the way out: three pairs of places at one distance before and after the middle lie together.</summary>
    private bool Retraces()
    {
        double half = TotalM / 2;
        foreach (double part in (ReadOnlySpan<double>)[0.25, 0.5, 0.75])
        {
            if (Flat(PlaceAt(half * (1 - part)), PlaceAt(half * (1 + part))) > SamePlaceM)
            {
                return false;
            }
        }

        return true;
    }

    private static double Flat(GeoPoint a, GeoPoint b) => GeodesyKernel.DistanceM(a.LatDeg, a.LonDeg, b.LatDeg, b.LonDeg);

    private IEnumerable<double> Along(string name, GeoPoint? place, Length? along, List<Finding> findings)
    {
        if (along is { } a)
        {
            if (a.Meters > TotalM + OffRouteM)
            {
                throw new ArgumentException($"'{name}' is given at km {Text.F(a.Kilometers, 2)}; the route ends at km {Text.F(TotalM / 1000, 2)}.", nameof(along));
            }

            yield return Math.Min(a.Meters, TotalM);
            yield break;
        }

        if (place is not { } p)
        {
            throw new ArgumentException($"'{name}' has neither a place nor a distance along the route.", nameof(place));
        }

        RoutePass nearest = Route.Nearest(p);
        if (nearest.Offset.Meters > OffRouteM)
        {
            findings.Add(new Finding(
                PlanningFindingCodes.OffRoute, FindingSeverity.Caution, name,
                $"Lies {Text.Thousands(nearest.Offset.Meters)} m off the route in a straight line; the way to it is not known.",
                new FindingValue("offset_m", Text.F(nearest.Offset.Meters, 0))));
        }

        if (nearest.Offset.Meters > 10 * OffRouteM)
        {
            yield break;
        }

        double last = double.NegativeInfinity;
        foreach (RoutePass pass in Route.Project(p).OrderBy(x => x.DistanceAlong.Meters))
        {
            if (pass.DistanceAlong.Meters - last > 1000)
            {
                last = pass.DistanceAlong.Meters;
                yield return last;
            }
        }
    }
}
