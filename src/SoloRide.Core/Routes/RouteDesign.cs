using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A route that is being altered: each change gives a new design with the new route and a list of what changed; this one stays as it is.</summary>
/// <remarks>
/// A design is a row of stretches of recordings, so what no change touched stays point for point, and length and ascent of parts add up.
/// A line proves neither access nor that the trail is open or rideable. Immutable; safe to share between threads.
/// </remarks>
[Entry]
public sealed class RouteDesign
{
    /// <summary>An exit lies on a route that passes it within this distance.</summary>
    [Source("assumption-routes-exit-reach", "100 m")]
    private const double ExitReachM = 100;

    private const double SameM = 1e-6;

    private readonly ProfilePiece[] _pieces;
    private readonly double[] _startM;
    private readonly (ExitPoint Exit, GeoPoint Place)[] _exits;

    private RouteDesign(RideRoute original, ProfilePiece[] pieces, (ExitPoint, GeoPoint)[] exits, RouteOrigin origin, IReadOnlyList<Finding> notes)
    {
        Original = original;
        _pieces = pieces;
        _exits = exits;
        Origin = origin;
        Notes = notes;
        RideRoute first = pieces[0].Profile.Route;
        if (pieces.Length == 1 && pieces[0] is { FromM: <= 0, Backward: false } && pieces[0].ToM >= first.LengthM)
        {
            Route = first;
            _startM = [0];
        }
        else
        {
            RideRoute[] parts = [.. pieces.Select(p => p.Route())];
            _startM = new double[parts.Length];
            for (int i = 1; i < parts.Length; i++)
            {
                RideRoute a = parts[i - 1], b = parts[i];
                _startM[i] = _startM[i - 1] + a.LengthM + RouteJoin.Grid(GeodesyKernel.DistanceM(a.LatDeg[^1], a.LonDeg[^1], b.LatDeg[0], b.LonDeg[0]));
            }

            RideRoute[] sources = [.. pieces.Select(p => p.Profile.Route).Distinct()];
            HeightSource source = pieces.FirstOrDefault(p => p.HasHeights) is { Profile: { } profile } ? profile.Source : HeightSource.Recognised;
            Route = parts.Length == 1 && parts[0].HeightSource == source ? parts[0]
                : RouteJoin.Of(parts, original.Name, original.Description, [.. sources.SelectMany(s => s.Waypoints).Distinct()],
                    [.. sources.SelectMany(s => s.Findings).Distinct()], pieces.Where(p => p.HasHeights).All(p => p.Profile.Source == source) ? source : HeightSource.Recognised);
        }

        Figures = Count();
    }

    /// <summary>The route as it began.</summary>
    public RideRoute Original { get; }

    /// <summary>The route as it is now.</summary>
    public RideRoute Route { get; }

    /// <summary>Its figures.</summary>
    public RouteFigures Figures { get; }

    /// <summary>Every change since <see cref="Original"/>, in order; a change that was refused is not among them.</summary>
    public IReadOnlyList<DesignChange> Changes { get; private init; } = [];

    /// <summary>Stretches that the last change was refused, with what would open them; empty when it was done.</summary>
    public IReadOnlyList<WayRefusal> Refusals { get; private init; } = [];

    /// <summary>Where the tracks come from: the oldest date of all that were joined, and what was checked on all of them; a stretch laid over a network has no date and nothing checked.</summary>
    public RouteOrigin Origin { get; }

    /// <summary>What a reader should know: findings of the route, changes refused, exits lost, and what a line proves.</summary>
    public IReadOnlyList<Finding> Findings => [.. Route.Findings.Concat(Notes).Append(RouteOrigin.AccessFinding(Route.Name)).DistinctBy(f => (f.Code, f.Message))];

    private IReadOnlyList<Finding> Notes { get; }

    private double LengthM => Route.LengthM;

    /// <summary>Begins a design.</summary>
    /// <param name="route">The route.</param>
    /// <param name="exits">Ways out, by place or by distance along the route; null for none.</param>
    /// <param name="origin">Where the track comes from; null to read it from the times and heights.</param>
    /// <returns>The design without a change.</returns>
    /// <exception cref="ArgumentException">The route has no length; an exit has neither place nor distance, lies beyond the end, or shares a name.</exception>
    public static RouteDesign Of(RideRoute route, IEnumerable<ExitPoint>? exits = null, RouteOrigin? origin = null)
    {
        Guard.NotNull(route);
        if (!(route.LengthM > 0))
        {
            throw new ArgumentException($"The route at {route.Start} has a length of 0 m; a design needs a route that goes somewhere.", nameof(route));
        }

        var known = new List<(ExitPoint, GeoPoint)>();
        foreach (ExitPoint e in exits ?? [])
        {
            if (known.Any(k => k.Item1.Name == e.Name))
            {
                throw new ArgumentException($"Two exits are named '{e.Name}'.", nameof(exits));
            }

            if (e.Place is { } place)
            {
                known.Add((e, place));
            }
            else if (e.AlongRoute is { } along)
            {
                known.Add((e, along.Meters <= route.LengthM + SameM ? route.PointAt(Length.FromMeters(Math.Min(along.Meters, route.LengthM)))
                    : throw new ArgumentException($"Exit '{e.Name}' lies at {Text.F(along.Meters, 0)} m; the route is {Text.F(route.LengthM, 0)} m long.", nameof(exits))));
            }
            else
            {
                throw new ArgumentException($"Exit '{e.Name}' has neither a place nor a distance along the route.", nameof(exits));
            }
        }

        return new RouteDesign(route, [new ProfilePiece(ElevationProfile.Of(route), 0, route.LengthM, false)], [.. known], origin ?? RouteOrigin.Of(route), []);
    }

    /// <summary>The route ridden the other way.</summary>
    /// <returns>The new design; reversing again gives the same route.</returns>
    public RouteDesign Reverse() => Changed(Turned(_pieces), DesignChangeKind.Reversed, "Ridden the other way round.", 0, double.NaN);

    /// <summary>A loop begun at its point nearest to a place.</summary>
    /// <param name="place">The place.</param>
    /// <returns>The new design.</returns>
    /// <exception cref="ArgumentException">The route is no loop: its ends are more than 100 m apart.</exception>
    public RouteDesign StartAt(GeoPoint place) => StartAt(Route.Project(place).MinBy(p => p.OffsetM)!.DistanceAlong);

    /// <summary>A loop begun elsewhere.</summary>
    /// <param name="along">[0 to the length of the route] New start.</param>
    /// <returns>The new design.</returns>
    /// <exception cref="ArgumentException">The route is no loop: its ends are more than 100 m apart.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside the route.</exception>
    public RouteDesign StartAt(Length along)
    {
        Loop("Only a loop can start elsewhere");
        double x = InRoute(along, nameof(along));
        return Changed([.. Slice(x, LengthM), .. Slice(0, x)], DesignChangeKind.StartedElsewhere, $"Started at km {Km(x)} of the loop, {Route.PointAt(Length.FromMeters(x))}.", 0, double.NaN);
    }

    /// <summary>The route cut at a point.</summary>
    /// <param name="along">[above 0, below the length of the route] Where.</param>
    /// <param name="keep">Which side stays.</param>
    /// <returns>The new design.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Nothing would be left, or outside the route.</exception>
    public RouteDesign CutAt(Length along, KeptPart keep = KeptPart.Before)
    {
        Guard.Defined(keep);
        double x = InRoute(along, nameof(along));
        ProfilePiece[] kept = keep == KeptPart.Before ? Slice(0, x) : Slice(x, LengthM);
        return kept.Length > 0
            ? Changed(kept, DesignChangeKind.Cut, $"Cut at km {Km(x)}, {Route.PointAt(Length.FromMeters(x))}; what comes {(keep == KeptPart.Before ? "before" : "after")} stays.", keep == KeptPart.Before ? x : 0, keep == KeptPart.Before ? x : 0)
            : throw new ArgumentOutOfRangeException(nameof(along), x, $"A cut at {Text.F(x, 1)} m leaves nothing {(keep == KeptPart.Before ? "before" : "after")} it; allowed are places inside 0 to {Text.F(LengthM, 1)} m.");
    }

    /// <summary>The route led by another point over the trails of a network: it leaves and comes back where added and lost length together are least.</summary>
    /// <param name="point">The point.</param>
    /// <param name="network">The trails; the route must lie on them.</param>
    /// <param name="options">Day, bars that are set aside, and how far points may lie from a trail; null for the defaults.</param>
    /// <returns>The new design; the same route with a finding and <see cref="Refusals"/> when there is no way.</returns>
    /// <exception cref="ArgumentNullException">No network.</exception>
    public RouteDesign LeadBy(GeoPoint point, RouteNetwork network, WayOptions? options = null)
    {
        Guard.NotNull(network);
        options ??= WayOptions.Default;
        var findings = new List<Finding>();
        if (network.Attach(point, options, "the point", findings) is not { } place)
        {
            return Refused($"The route cannot be led by {point}: {findings[^1].Message}", []);
        }

        // Where the route can be left and met: the ends of trails on it.
        double[] cost = network.OpenCosts(options);
        double[] from = network.Everywhere(place, cost, backward: false).Label, to = network.Everywhere(place, cost, backward: true).Label;
        (int Node, double AtM)[] at = [.. JunctionReader.Nodes(network, Route, Math.Max(10, 2 * network.Options.ToleranceM), 1)];
        double best = double.PositiveInfinity, leave = double.NaN;
        (int Node, double AtM) outAt = default, backAt = default, bestOut = default;
        foreach ((int Node, double AtM) j in at)
        {
            if (to[j.Node] - j.AtM < leave || double.IsNaN(leave))
            {
                (leave, outAt) = (to[j.Node] - j.AtM, j);
            }

            if (leave + from[j.Node] + j.AtM < best)
            {
                (best, bestOut, backAt) = (leave + from[j.Node] + j.AtM, outAt, j);
            }
        }

        if (double.IsInfinity(best))
        {
            WayRefusal[] refusals = [];
            if (at.Length > 0)
            {
                RouteWay direct = network.Way([network.PlaceOf(at.MinBy(j => Geodesic.Between(network.PlaceOf(j.Node), point).LengthM).Node), point], options);
                refusals = [.. direct.Refusals];
                findings.AddRange(direct.Findings.Where(f => f.Severity == FindingSeverity.Refusal));
            }

            return Refused($"The route cannot be led by {point}: {(at.Length == 0 ? "no junction of the network lies on it" : findings.Count > 0 ? findings[^1].Message : "no open way leads there and back")}.", refusals);
        }

        RouteWay way = network.Way([network.PlaceOf(bestOut.Node), point, network.PlaceOf(backAt.Node)], options);
        if (way.Route is not { } detour)
        {
            return Refused($"The route cannot be led by {point}: {string.Join(" ", way.Findings.Where(f => f.Severity == FindingSeverity.Refusal).Select(f => f.Message))}", way.Refusals);
        }

        return Exchanged(bestOut.AtM, backAt.AtM, detour, DesignChangeKind.LedByPoint, $"Led by {point}: leaves at km {Km(bestOut.AtM)}, comes back at km {Km(backAt.AtM)} of the old route.", way);
    }

    /// <summary>A stretch exchanged for another line.</summary>
    /// <param name="from">[0 to the length of the route] Where the stretch begins.</param>
    /// <param name="to">[<paramref name="from"/> to the length of the route] Where it ends.</param>
    /// <param name="replacement">The other line, in the direction of travel; where it does not meet the route the gap is a finding.</param>
    /// <returns>The new design.</returns>
    /// <exception cref="ArgumentException">Outside the route, in the wrong order, or the replacement has no length.</exception>
    public RouteDesign Swap(Length from, Length to, RideRoute replacement)
    {
        (double a, double b) = Stretch(from, to);
        if (!(Guard.NotNull(replacement).LengthM > 0))
        {
            throw new ArgumentException($"The replacement at {replacement.Start} has a length of 0 m.", nameof(replacement));
        }

        return Exchanged(a, b, replacement, DesignChangeKind.Swapped, $"Km {Km(a)} to {Km(b)} exchanged for another line.", null);
    }

    /// <summary>A stretch exchanged for the best other way over the trails of a network.</summary>
    /// <param name="from">[0 to the length of the route] Where the stretch begins.</param>
    /// <param name="to">[<paramref name="from"/> to the length of the route] Where it ends.</param>
    /// <param name="network">The trails.</param>
    /// <param name="options">Day, bars that are set aside, and how far points may lie from a trail; null for the defaults.</param>
    /// <returns>The new design; the same route with a finding and <see cref="Refusals"/> when there is no other way.</returns>
    /// <exception cref="ArgumentException">Outside the route or in the wrong order.</exception>
    public RouteDesign Swap(Length from, Length to, RouteNetwork network, WayOptions? options = null)
    {
        Guard.NotNull(network);
        options ??= WayOptions.Default;
        (double a, double b) = Stretch(from, to);
        var findings = new List<Finding>();
        GeoPoint start = Route.PointAt(Length.FromMeters(a)), end = Route.PointAt(Length.FromMeters(b));
        NetworkPlace? p = network.Attach(start, options, "the beginning of the stretch", findings), q = network.Attach(end, options, "the end of the stretch", findings);
        if (p is not { } first || q is not { } last)
        {
            return Refused($"Km {Km(a)} to {Km(b)} cannot be exchanged: {findings[^1].Message}", []);
        }

        HashSet<int> avoid = OnStretch(network, a, b);
        foreach (NetworkPlace inside in new[] { first, last }.Where(x => x.AlongM > 0.01 && x.Trail.LengthM - x.AlongM > 0.01))
        {
            // From within a trail there is no way but along it.
            avoid.Remove(inside.Trail.Index);
        }

        RouteWay way = network.Way([first, last], [start, end], options, findings, avoid);
        bool same = way.Parts.Count > 0 && way.Parts.All(x => (x.Trail == first.Trail || x.Trail == last.Trail) && Lies(x, a, b, network.Options.ToleranceM));
        return way.Route is { } other && other.LengthM > 0 && !same
            ? Exchanged(a, b, other, DesignChangeKind.Swapped, $"Km {Km(a)} to {Km(b)} exchanged for {(other.Name.Length > 0 ? other.Name : "another way")}.", way)
            : Refused($"Km {Km(a)} to {Km(b)} cannot be exchanged: no other way is open. {string.Join(" ", way.Findings.Where(f => f.Severity == FindingSeverity.Refusal).Select(f => f.Message))}".TrimEnd(), way.Refusals);
    }

    /// <summary>Another route added at the end.</summary>
    /// <param name="next">The route that follows; where it does not meet the end the gap is a finding.</param>
    /// <param name="origin">Where it comes from; null to read it from its times and heights.</param>
    /// <returns>The new design.</returns>
    /// <exception cref="ArgumentException">The route that follows has no length.</exception>
    public RouteDesign Append(RideRoute next, RouteOrigin? origin = null)
    {
        if (!(Guard.NotNull(next).LengthM > 0))
        {
            throw new ArgumentException($"The route at {next.Start} has a length of 0 m.", nameof(next));
        }

        double at = LengthM;
        return Changed([.. _pieces, Piece(next)], DesignChangeKind.Appended, $"{(next.Name.Length > 0 ? next.Name : "A route")} of {Km(next.LengthM)} km added at the end.", at, double.NaN, Origin.And(origin ?? RouteOrigin.Of(next)));
    }

    /// <summary>A loop ridden several times.</summary>
    /// <param name="times">How often in all; 2 to 100.</param>
    /// <returns>The new design.</returns>
    /// <exception cref="ArgumentException">The route is no loop: its ends are more than 100 m apart.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public RouteDesign Repeat(int times)
    {
        Guard.InRange(times, 2, 100, "times");
        Loop("Only a loop can be repeated");
        return Changed([.. Enumerable.Repeat(_pieces, times).SelectMany(p => p)], DesignChangeKind.Repeated, $"Ridden {Text.F(times, 0)} times.", LengthM, double.NaN);
    }

    /// <summary>The route ended at a named exit.</summary>
    /// <param name="exit">Name of one of the exits given at the beginning.</param>
    /// <param name="notBefore">Distance along the route from which a pass counts, where the route passes the exit several times; null for the first pass after the start.</param>
    /// <returns>The new design; the same route with a finding when it does not pass within 100 m of the exit.</returns>
    /// <exception cref="ArgumentException">No exit has that name; the message lists the names.</exception>
    public RouteDesign ShortenAt(string exit, Length? notBefore = null)
    {
        Guard.NotEmpty(exit);
        double after = notBefore is { } n ? InRoute(n, nameof(notBefore)) : ExitReachM;
        int i = Array.FindIndex(_exits, e => e.Exit.Name == exit);
        if (i < 0)
        {
            throw new ArgumentException($"No exit is named '{exit}'; there are: {(_exits.Length == 0 ? "none" : string.Join(", ", _exits.Select(e => e.Exit.Name)))}.", nameof(exit));
        }

        RoutePass[] passes = [.. Route.Project(_exits[i].Place, Length.FromMeters(ExitReachM)).Where(p => p.AlongM >= after && p.AlongM > SameM)];
        if (passes.Length == 0)
        {
            RoutePass near = Route.Project(_exits[i].Place).MinBy(p => p.OffsetM)!;
            return Refused($"The route does not pass '{exit}' within {Text.F(ExitReachM, 0)} m after km {Km(after)}: nearest is {Text.F(near.OffsetM, 0)} m away at km {Km(near.AlongM)}.", []);
        }

        double at = passes[0].AlongM;
        return Changed(Slice(0, at), DesignChangeKind.ShortenedAtExit,
            $"Ended at '{exit}', km {Km(at)}{(passes[0].OffsetM > 1 ? $", {Text.F(passes[0].OffsetM, 0)} m beside the route" : "")}.", at, at);
    }

    /// <summary>Length, ascent and number of changes.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{(Route.Name.Length > 0 ? Route.Name : "route")}: {Km(LengthM)} km, {(Figures.Ascent is { } a ? $"ascent {Text.F(a.Meters, 0)} m" : "ascent unknown")}, {Changes.Count} changes");

    private static string Km(double m) => Text.F(m / 1000, 2);

    private static ProfilePiece Piece(RideRoute route) => new(ElevationProfile.Of(route), 0, route.LengthM, false);

    private static ProfilePiece[] Turned(ProfilePiece[] pieces) => [.. pieces.Reverse().Select(p => p.Reversed())];

    private RouteDesign Exchanged(double a, double b, RideRoute other, DesignChangeKind kind, string words, RouteWay? way)
    {
        ProfilePiece[] before = Slice(0, a);
        RouteDesign done = Changed([.. before, Piece(other), .. Slice(b, LengthM)], kind, words, a, a + other.LengthM, Origin.And(RouteOrigin.Of(other)), way?.Findings);
        return done;
    }

    private RouteDesign Changed(ProfilePiece[] pieces, DesignChangeKind kind, string words, double fromM, double toM, RouteOrigin? origin = null, IReadOnlyList<Finding>? more = null)
    {
        var notes = new List<Finding>(Notes);
        notes.AddRange((more ?? []).Where(f => f.Code != RoutesFindingCodes.Access && f.Code != RoutesFindingCodes.Gap));
        ProfilePiece[] merged = Merged(pieces);
        var next = new RouteDesign(Original, merged, _exits, origin ?? Origin, notes);
        double total = next.LengthM;
        var change = new DesignChange(kind, words, Length.FromMeters(Math.Min(fromM, total)), Length.FromMeters(double.IsNaN(toM) ? total : Math.Min(toM, total)), Figures, next.Figures);
        if (change.ExitsLost.Count > 0)
        {
            notes.Add(new Finding(RoutesFindingCodes.ExitLost, FindingSeverity.Warning, string.Join(", ", change.ExitsLost), $"The change takes the route away from {string.Join(", ", change.ExitsLost)}: work out the ways out anew."));
        }

        return new RouteDesign(Original, merged, _exits, origin ?? Origin, notes, next) { Changes = [.. Changes, change] };
    }

    // The same design with its notes complete; nothing is computed again.
    private RouteDesign(RideRoute original, ProfilePiece[] pieces, (ExitPoint, GeoPoint)[] exits, RouteOrigin origin, IReadOnlyList<Finding> notes, RouteDesign like)
        => (Original, _pieces, _exits, Origin, Notes, Route, _startM, Figures) = (original, pieces, exits, origin, notes, like.Route, like._startM, like.Figures);

    private RouteDesign Refused(string message, IReadOnlyList<WayRefusal> refusals)
        => new(Original, _pieces, _exits, Origin,
            [.. Notes, new Finding(RoutesFindingCodes.ChangeRefused, FindingSeverity.Refusal, Route.Name, message)], this) { Changes = Changes, Refusals = refusals };

    private RouteFigures Count()
    {
        double up = 0, down = 0, hardM = 0, knownM = 0;
        bool heights = true;
        foreach (ProfilePiece p in _pieces)
        {
            (double u, double d) = p.Climbing();
            up += u;
            down += d;
            heights &= p.HasHeights;
        }

        TrailDifficulty hardest = TrailDifficulty.Unknown;
        foreach (RouteSection s in Route.Sections.Where(s => s.Difficulty != TrailDifficulty.Unknown))
        {
            knownM += s.ToM - s.FromM;
            if (s.Difficulty > hardest)
            {
                (hardest, hardM) = (s.Difficulty, 0);
            }

            hardM += s.Difficulty == hardest ? s.ToM - s.FromM : 0;
        }

        var exits = new List<(double AtM, string Name)>();
        foreach ((ExitPoint exit, GeoPoint place) in _exits)
        {
            if (Route.Project(place, Length.FromMeters(ExitReachM)) is { Length: > 0 } passes)
            {
                exits.Add((passes[0].AlongM, exit.Name));
            }
        }

        return new RouteFigures(Length.FromMeters(LengthM), heights ? Length.FromMeters(up) : null, heights ? Length.FromMeters(down) : null,
            hardest, Length.FromMeters(hardM), Length.FromMeters(Math.Max(0, LengthM - knownM)), [.. exits.OrderBy(e => e.AtM).ThenBy(e => e.Name, StringComparer.Ordinal).Select(e => e.Name)]);
    }

    private (double A, double B) Stretch(Length from, Length to)
    {
        double a = InRoute(from, nameof(from)), b = InRoute(to, nameof(to));
        return b >= a ? (a, b) : throw new ArgumentOutOfRangeException(nameof(to), b, string.Create(CultureInfo.InvariantCulture, $"to is {b} m; it must not be before from, {a} m."));
    }

    private double InRoute(Length along, string name)
    {
        double x = along.Meters;
        return x > LengthM && x <= LengthM + SameM ? LengthM : Guard.InRange(x, 0, LengthM, "m", name);
    }

    private void Loop(string what)
    {
        if (!Route.IsLoop)
        {
            throw new ArgumentException($"{what}: the ends of this route, {Route.Start} and {Route.End}, are {Text.F(Geodesic.Between(Route.Start, Route.End).LengthM, 0)} m apart, and a loop's lie within {Text.F(RideRoute.LoopM, 0)} m.");
        }
    }

    /// <summary>Stretches between two distances; what lies in a gap between stretches has none.</summary>
    private ProfilePiece[] Slice(double fromM, double toM)
    {
        var row = new List<ProfilePiece>();
        for (int i = 0; i < _pieces.Length; i++)
        {
            double start = _startM[i], a = Math.Max(fromM - start, 0), b = Math.Min(toM - start, _pieces[i].LengthM);
            if (b - a > SameM)
            {
                row.Add(_pieces[i].Part(a, b));
            }
        }

        return [.. row];
    }

    // Neighbours that were one stretch are one again.
    private static ProfilePiece[] Merged(ProfilePiece[] pieces)
    {
        var row = new List<ProfilePiece>();
        foreach (ProfilePiece p in pieces)
        {
            if (row.Count > 0 && row[^1] is var last && ReferenceEquals(last.Profile, p.Profile) && last.Backward == p.Backward
                && Math.Abs(p.Backward ? last.FromM - p.ToM : last.ToM - p.FromM) <= SameM)
            {
                row[^1] = p.Backward ? last with { FromM = p.FromM } : last with { ToM = p.ToM };
            }
            else
            {
                row.Add(p);
            }
        }

        return [.. row];
    }

    /// <summary>Trails of a network that lie on a stretch of the route.</summary>
    private HashSet<int> OnStretch(RouteNetwork network, double a, double b)
    {
        var on = new HashSet<int>();
        double step = 20;
        int n = (int)Math.Max(1, Math.Ceiling((b - a) / step));
        for (int i = 0; i < n; i++)
        {
            GeoPoint p = Route.PointAt(Length.FromMeters(a + ((i + 0.5) * (b - a) / n)));
            if (network.Nearest(p, Math.Max(10, 2 * network.Options.ToleranceM)) is { } near)
            {
                on.Add(near.Trail.Index);
            }
        }

        return on;
    }

    private bool Lies(WayPart part, double a, double b, double toleranceM)
    {
        RoutePass? pass = Route.Project(part.Trail.Line.PointAt(Length.FromMeters((part.FromM + part.ToM) / 2)), Length.FromMeters(Math.Max(10, 2 * toleranceM))).Where(p => p.AlongM >= a && p.AlongM <= b).MinBy(p => p.OffsetM);
        return pass is not null;
    }
}
