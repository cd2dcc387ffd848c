using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A trail of a <see cref="RouteNetwork"/> between two junctions, with what is known of it.</summary>
/// <remarks>Immutable.</remarks>
public sealed class NetworkTrail
{
    /// <summary>Longest step that a cost function is asked about.</summary>
    [Source("assumption-routes-cost-step", "100 m")]
    internal const double StepM = 100;

    private RideRoute? _line;

    internal NetworkTrail(int index, int a, int b, RouteColumns columns, double[] cumM, IReadOnlyList<RouteSection> sections, ProfilePiece[] pieces, TrailLine like)
    {
        Index = index;
        From = a;
        To = b;
        Columns = columns;
        CumM = cumM;
        Sections = sections;
        Pieces = pieces;
        Like = like;
        HasHeights = pieces.All(p => p.HasHeights);
        foreach (ProfilePiece p in pieces)
        {
            (double up, double down) = p.Climbing();
            UpM += up;
            DownM += down;
        }
    }

    /// <summary>Its number in the network, from 0.</summary>
    public int Index { get; }

    /// <summary>Number of the junction where its line begins.</summary>
    public int From { get; }

    /// <summary>Number of the junction where its line ends.</summary>
    public int To { get; }

    /// <summary>Name; may be empty.</summary>
    public string Name => Like.Name;

    /// <summary>Length.</summary>
    public Length Length => Length.FromMeters(LengthM);

    /// <summary>Sum of rises from <see cref="From"/> to <see cref="To"/>, from the smoothed profile of the line it came from; null without heights.</summary>
    public Length? Ascent => HasHeights ? Length.FromMeters(UpM) : null;

    /// <summary>Sum of falls from <see cref="From"/> to <see cref="To"/>, positive; null without heights.</summary>
    public Length? Descent => HasHeights ? Length.FromMeters(DownM) : null;

    /// <summary>Direction in which it may be ridden, by its line.</summary>
    public OneWayRule OneWay => Like.OneWay;

    /// <summary>Whether bicycles are allowed, as far as the data say.</summary>
    public Known Bicycles => Like.Bicycles;

    /// <summary>That it is closed; null when the data know of no closure.</summary>
    public TrailClosure? Closure => Like.Closure;

    /// <summary>Layer of the open tag set.</summary>
    public int Layer => Like.Layer;

    /// <summary>Its places, heights, surface and difficulty.</summary>
    public RideRoute Line
        => _line ?? Interlocked.CompareExchange(ref _line, new RideRoute(Columns, 0, Columns.Count, Name, "", [], [], Sections, [], CumM) { HeightSource = Source }, null) ?? _line;

    internal RouteColumns Columns { get; }

    internal double[] CumM { get; }

    internal double LengthM => CumM[^1];

    internal IReadOnlyList<RouteSection> Sections { get; }

    internal ProfilePiece[] Pieces { get; }

    internal TrailLine Like { get; }

    internal bool HasHeights { get; }

    internal double UpM { get; }

    internal double DownM { get; }

    internal HeightSource Source => Pieces.Length > 0 && Pieces[0].HasHeights && Pieces.All(p => p.Profile.Source == Pieces[0].Profile.Source) ? Pieces[0].Profile.Source : HeightSource.Recognised;

    /// <summary>Name, or where it begins when it has none.</summary>
    internal string Called => Name.Length > 0 ? Name : $"trail from {new GeoPoint(Columns.LatDeg[0], Columns.LonDeg[0])}";

    /// <summary>What bars the way in a direction on a day.</summary>
    internal TrailBars Bars(bool backward, DateOnly? day)
        => (Closure is { } c && c.HoldsOn(day) ? TrailBars.Closed : 0)
            | (OneWay == (backward ? OneWayRule.Forward : OneWayRule.Backward) ? TrailBars.OneWay : 0)
            | (Bicycles == Known.No ? TrailBars.NoBicycles : 0);

    /// <summary>Rises and falls between two distances along the line.</summary>
    internal (double UpM, double DownM) Climbing(double fromM, double toM)
    {
        double up = 0, down = 0;
        foreach ((ProfilePiece piece, double from, double to) in Within(fromM, toM))
        {
            (double u, double d) = piece.Part(from, to).Climbing();
            up += u;
            down += d;
        }

        return (up, down);
    }

    /// <summary>The trail between two distances along its line in steps in the direction of travel.</summary>
    internal List<TrailStep> Steps(double fromM, double toM, bool backward)
    {
        var steps = new List<TrailStep>();
        double at = 0;
        double scale = Scale();
        foreach (ProfilePiece piece in Pieces)
        {
            double length = piece.LengthM * scale;
            double a = Math.Max(fromM, at), b = Math.Min(toM, at + length);
            if (b > a)
            {
                var cuts = new List<double> { a, b };
                cuts.AddRange(Sections.SelectMany(s => new[] { s.FromM, s.ToM }).Where(x => x > a && x < b));
                cuts.Sort();
                for (int i = 1; i < cuts.Count; i++)
                {
                    double u = cuts[i - 1], v = cuts[i];
                    int n = (int)Math.Max(1, Math.Ceiling((v - u) / StepM));
                    RouteSection? section = v > u ? Sections.FirstOrDefault(s => s.FromM <= (u + v) / 2 && s.ToM > (u + v) / 2) : null;
                    for (int k = 0; k < n && v > u; k++)
                    {
                        double x0 = u + ((v - u) * k / n), x1 = k + 1 == n ? v : u + ((v - u) * (k + 1) / n);
                        double h0 = piece.HeightM(Math.Min((x0 - at) / scale, piece.LengthM)), h1 = piece.HeightM(Math.Min((x1 - at) / scale, piece.LengthM));
                        double rise = piece.HasHeights ? h1 - h0 : 0;
                        steps.Add(new TrailStep(x1 - x0, backward ? -rise : rise, (h0 + h1) / 2, double.NaN,
                            section?.Surface ?? TrailSurface.Unknown, section?.Difficulty ?? TrailDifficulty.Unknown));
                    }
                }
            }

            at += length;
        }

        if (backward)
        {
            steps.Reverse();
        }

        return steps;
    }

    /// <summary>The places between two distances, in the direction of travel.</summary>
    internal RideRoute Part(double fromM, double toM, bool backward)
    {
        RideRoute part = fromM <= 0 && toM >= LengthM ? Line : Line.Part(Length.FromMeters(Math.Max(0, fromM)), Length.FromMeters(Math.Min(toM, LengthM)));
        return backward ? part.Reversed() : part;
    }

    // Ends moved onto a junction make a line a little longer or shorter than the profile it came from.
    private double Scale()
    {
        double sum = Pieces.Sum(p => p.LengthM);
        return sum > 0 ? LengthM / sum : 1;
    }

    private IEnumerable<(ProfilePiece Piece, double FromM, double ToM)> Within(double fromM, double toM)
    {
        double at = 0, scale = Scale();
        foreach (ProfilePiece piece in Pieces)
        {
            double length = piece.LengthM * scale, a = Math.Max(fromM, at), b = Math.Min(toM, at + length);
            if (b > a)
            {
                yield return (piece, (a - at) / scale, Math.Min((b - at) / scale, piece.LengthM));
            }

            at += length;
        }
    }
}
