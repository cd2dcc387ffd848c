using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.InteropServices;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>Heights over distance, smoothed as their source needs it, with the ascent and descent that can be believed.</summary>
/// <remarks>
/// The ascent of a trail depends on the scale at which it is counted: here it is the sum of rises of the true ground line after a
/// Gaussian of <see cref="Scale"/> (25 m), and the range tells how far the recording can be trusted. Without heights the profile is
/// level and says so in its findings. The profile of the reversed route has ascent and descent exchanged, digit for digit.
/// Immutable; safe to share between threads.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed class ElevationProfile
{
    /// <summary>Scale of every ascent.</summary>
    [Source("routes-ascent-fit", "headline definition, 25 m Gaussian")]
    internal const double ScaleM = 25;

    /// <summary>Below this the source is told with a doubt.</summary>
    [Source("routes-ascent-fit", "odds of about 7 to 1")]
    private const double DoubtfulLogOdds = 2;

    private readonly double[] _cellsM;
    private readonly double _stepM;
    private readonly double _lengthM;

    private ElevationProfile(RideRoute route, double[] cellsM, HeightSource source, double smoothingM, Estimate<Length> ascent, Estimate<Length> descent, double gradeErrorFraction, IReadOnlyList<Finding> findings)
    {
        Route = route;
        _cellsM = cellsM;
        _lengthM = route.LengthM;
        _stepM = cellsM.Length > 0 ? _lengthM / cellsM.Length : 0;
        Source = source;
        SmoothingM = smoothingM;
        Ascent = ascent;
        Descent = descent;
        GradeError = Grade.FromRise(gradeErrorFraction);
        Findings = findings;
    }

    /// <summary>The route.</summary>
    public RideRoute Route { get; }

    /// <summary>Whether there are heights; without them the profile is level at an unknown height.</summary>
    public bool HasHeights => _cellsM.Length > 0;

    /// <summary>Where the heights come from, as stated or recognised; <see cref="HeightSource.Recognised"/> without heights.</summary>
    public HeightSource Source { get; }

    /// <summary>Sum of rises at <see cref="Scale"/>.</summary>
    public Estimate<Length> Ascent { get; }

    /// <summary>Sum of falls at <see cref="Scale"/>, positive; ascent less descent is the height difference of the smoothed ends.</summary>
    public Estimate<Length> Descent { get; }

    /// <summary>The scale at which ascent and descent are stated: standard deviation of a Gaussian over distance.</summary>
    public Length Scale => Length.FromMeters(double.IsNaN(StatedScaleM) ? ScaleM : StatedScaleM);

    /// <summary>Standard deviation of the Gaussian that was needed on these heights.</summary>
    public Length Smoothing => Length.FromMeters(SmoothingM);

    /// <summary>Root mean square error to expect of a grade at one place.</summary>
    public Grade GradeError { get; }

    /// <summary>Lowest smoothed height; null without heights.</summary>
    public Length? Lowest => HasHeights ? Length.FromMeters(_cellsM.Min()) : null;

    /// <summary>Highest smoothed height; null without heights.</summary>
    public Length? Highest => HasHeights ? Length.FromMeters(_cellsM.Max()) : null;

    /// <summary>Length of the even cells of <see cref="ElevationsM"/>.</summary>
    public Length Spacing => Length.FromMeters(_stepM);

    /// <summary>Smoothed heights [m] at the middles of even cells of <see cref="Spacing"/>; empty without heights.</summary>
    public ImmutableArray<double> ElevationsM => ImmutableCollectionsMarshal.AsImmutableArray(_cellsM);

    /// <summary>What was assumed, recognised or missing.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    internal double SmoothingM { get; }

    internal double StatedScaleM { get; private init; } = double.NaN;

    /// <summary>Makes the profile of a route.</summary>
    /// <param name="route">The route.</param>
    /// <param name="options">Source of the heights, smoothing, level of the ranges; null to find out and choose.</param>
    /// <returns>The profile; level, with a finding, when the route has no heights.</returns>
    /// <exception cref="ArgumentNullException">The route is null.</exception>
    public static ElevationProfile Of(RideRoute route, ElevationOptions? options = null)
    {
        Guard.NotNull(route);
        options ??= ElevationOptions.Default;
        var findings = new List<Finding>();
        ReadOnlySpan<double> heights = route.ElevationM;
        int known = heights.Length - Unknown(heights);
        if (known == 0)
        {
            findings.Add(new Finding(RoutesFindingCodes.NoHeights, FindingSeverity.Warning, route.Name,
                "The route has no heights: ascent is unknown and every grade is taken as level. Drape it over a terrain model."));
            Estimate<Length> zero = Estimate.Exact(Length.Zero);
            return new ElevationProfile(route, [], HeightSource.Recognised, 0, zero, zero, 0, findings);
        }

        if (known < heights.Length)
        {
            findings.Add(new Finding(RoutesFindingCodes.PartialHeights, FindingSeverity.Caution, route.Name,
                string.Create(CultureInfo.InvariantCulture, $"{heights.Length - known} of {heights.Length} points have no height; bridged in a straight line."),
                new FindingValue("missing", (heights.Length - known).ToString(CultureInfo.InvariantCulture))));
        }

        double length = route.LengthM;

        // Worked out in one of the two directions, so that the reversed route gives the same digits.
        bool backward = IsBackward(route);
        ReadOnlySpan<double> x = route.CumM;
        ReadOnlySpan<long> ticks = route.RecordedTicks;
        if (backward)
        {
            double[] hb = heights.ToArray(), xb = x.ToArray();
            long[] tb = ticks.ToArray();
            Array.Reverse(hb);
            Array.Reverse(xb);
            Array.Reverse(tb);
            for (int i = 0; i < xb.Length; i++)
            {
                xb[i] = length - xb[i];
            }

            heights = hb;
            x = xb;
            ticks = tb;
        }

        HeightSource source = options.Source == HeightSource.Recognised ? route.HeightSource : options.Source;
        HeightNoise? noise = source is HeightSource.Recognised or HeightSource.Satellite ? HeightNoise.Of(x, heights, ticks) : null;
        if (source == HeightSource.Recognised)
        {
            double odds = noise is null ? double.NaN : AscentModel.SatelliteLogOdds(noise);
            source = noise is null ? HeightSource.TerrainModel : odds > 0 ? HeightSource.Satellite : HeightSource.Barometric;
            bool doubtful = noise is null ? !ticks.IsEmpty : Math.Abs(odds) < DoubtfulLogOdds;
            findings.Add(new Finding(doubtful ? RoutesFindingCodes.HeightSourceDoubtful : RoutesFindingCodes.HeightSourceRecognised,
                doubtful ? FindingSeverity.Caution : FindingSeverity.Note, route.Name,
                $"The heights look {Words(source)}{(doubtful ? ", but not clearly: state the source if it is known" : "")}.", new FindingValue("source", source.ToString())));
        }

        if (length > 0 && length / Math.Max(1, route.Count - 1) > 100)
        {
            findings.Add(new Finding(RoutesFindingCodes.SparsePoints, FindingSeverity.Caution, route.Name,
                string.Create(CultureInfo.InvariantCulture, $"Points are {Text.F(length / (route.Count - 1), 0)} m apart on average: rises between them are missed.")));
        }

        double[] cells = new double[ProfileKernel.CellCount(length)];
        ProfileKernel.CellMeans(x, heights, length, cells);
        double step = length > 0 ? length / cells.Length : 0, sigma = options.SmoothingM;
        double[] smooth = new double[cells.Length];
        if (double.IsNaN(sigma))
        {
            sigma = source switch
            {
                HeightSource.Barometric => ScaleM,
                HeightSource.Satellite => noise is null || step == 0 ? AscentModel.UntimedSatelliteM : SatelliteScaleM(cells, step, length, noise),
                _ => AscentModel.TerrainM,
            };
        }

        ProfileKernel.Gaussian(cells, step > 0 ? sigma / step : 0, smooth);
        if (source == HeightSource.TerrainModel && double.IsNaN(options.SmoothingM) && step > 0)
        {
            // Twice the smooth less the smooth of it: bends and summits keep their height better than under one Gaussian.
            ProfileKernel.Gaussian(smooth, sigma / step, cells);
            for (int i = 0; i < smooth.Length; i++)
            {
                smooth[i] = (2 * smooth[i]) - cells[i];
            }
        }

        (double rise, double fall) = ProfileKernel.Sums(smooth);
        if (backward)
        {
            Array.Reverse(smooth);
            (rise, fall) = (fall, rise);
        }

        double half = AscentModel.HalfWidthM(source, noise is not null, rise + fall, length, options.IntervalLevel);
        if (!double.IsNaN(options.SmoothingM))
        {
            // The noise that a stated smoothing leaves is unknown: the width is that of the source, doubled.
            half *= 2;
        }

        if (length > 0 && AscentModel.IsFlat(rise + fall, length))
        {
            findings.Add(new Finding(RoutesFindingCodes.FlatRoute, FindingSeverity.Caution, route.Name,
                "The ground is flat for the noise of the heights (under 50 m or 10 m a kilometre): the ascent is weak and its range a guess."));
        }

        return new ElevationProfile(route, smooth, source, sigma, Range(rise, half), Range(fall, half), AscentModel.GradeErrorFraction(source), findings) { StatedScaleM = options.SmoothingM };

        Estimate<Length> Range(double value, double half)
            => Estimate.Of(Length.FromMeters(value), Length.FromMeters(Math.Max(0, value - half)), Length.FromMeters(value + half), options.IntervalLevel);
    }

    private static double SatelliteScaleM(double[] cells, double stepM, double lengthM, HeightNoise noise)
    {
        Span<double> climbing = stackalloc double[AscentKernel.ScaleCount];
        AscentKernel.Climbing(cells, stepM, climbing);
        return AscentKernel.ScaleForM(climbing, AscentModel.SatelliteClimbingM(climbing, lengthM, noise));
    }

    /// <summary>Smoothed height at a distance from the start.</summary>
    /// <param name="along">[0 to the length of the route]</param>
    /// <returns>The height; null without heights.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The distance is outside the route.</exception>
    public Length? ElevationAt(Length along) => HasHeights ? Length.FromMeters(HeightM(InRoute(along))) : null;

    /// <summary>Grade at a distance from the start, at the scale of the profile; level without heights.</summary>
    /// <param name="along">[0 to the length of the route]</param>
    /// <returns>The grade; its error is <see cref="GradeError"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The distance is outside the route.</exception>
    public Grade GradeAt(Length along)
    {
        double x = InRoute(along);
        if (_cellsM.Length < 2)
        {
            return default;
        }

        double a = Math.Max(_stepM / 2, x - _stepM), b = Math.Min(_lengthM - (_stepM / 2), x + _stepM);
        return Grade.FromRise(b > a ? (HeightM(b) - HeightM(a)) / (b - a) : 0);
    }

    /// <summary>The route in even steps: the unit in which time, energy and water are counted.</summary>
    /// <param name="spacing">Longest step, 1 m to 10 km; steps are made a little shorter so that they fill the route.</param>
    /// <returns>Steps in the order of travel, whose lengths sum up to that of the route; empty for a route without length.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The spacing is outside its range.</exception>
    public ImmutableArray<TrailStep> Steps(Length spacing)
    {
        double wanted = Guard.InRange(spacing.Meters, 1, 10_000, "m", nameof(spacing));
        if (!(_lengthM > 0))
        {
            return [];
        }

        int n = (int)Math.Max(1, Math.Ceiling(_lengthM / wanted));
        var steps = ImmutableArray.CreateBuilder<TrailStep>(n);
        double x0 = 0;
        GeoPoint p0 = Route.Start;
        int section = 0;
        for (int k = 1; k <= n; k++)
        {
            double x1 = k == n ? _lengthM : _lengthM * k / n;
            GeoPoint p1 = Route.PointAt(Length.FromMeters(x1));
            double h0 = HasHeights ? HeightM(x0) : 0, h1 = HasHeights ? HeightM(x1) : 0;
            (double s, double azimuth, _) = GeodesyKernel.Inverse(p0.LatDeg, p0.LonDeg, p1.LatDeg, p1.LonDeg);
            double bearing = s > 0 ? (azimuth + 360) % 360 : Route.BearingDegAt(x0);
            RouteSection? over = SectionOver(x0, x1, ref section);
            steps.Add(new TrailStep(x1 - x0, h1 - h0, HasHeights ? MeanM(x0, x1) : double.NaN, bearing,
                over?.Surface ?? TrailSurface.Unknown, over?.Difficulty ?? TrailDifficulty.Unknown));
            (x0, p0) = (x1, p1);
        }

        return steps.MoveToImmutable();
    }

    /// <summary>Climbs by reversal threshold, in the order of travel.</summary>
    /// <param name="threshold">A drop as large as this ends a climb; null for 10 m; 1 to 1 000 m.</param>
    /// <param name="sustained">Length over which the steepest grade must hold; null for 100 m; 10 m to 10 km.</param>
    /// <returns>The climbs; empty without heights or on ground flatter than the threshold.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its range.</exception>
    public ImmutableArray<Climb> Climbs(Length? threshold = null, Length? sustained = null) => Legs(1, threshold, sustained);

    /// <summary>Descents by reversal threshold, in the order of travel; their gain and grades are negative.</summary>
    /// <param name="threshold">A rise as large as this ends a descent; null for 10 m; 1 to 1 000 m.</param>
    /// <param name="sustained">Length over which the steepest grade must hold; null for 100 m; 10 m to 10 km.</param>
    /// <returns>The descents; empty without heights or on ground flatter than the threshold.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A length is outside its range.</exception>
    public ImmutableArray<Climb> Descents(Length? threshold = null, Length? sustained = null) => Legs(-1, threshold, sustained);

    /// <summary>How much of the route lies in each range of grades.</summary>
    /// <param name="edges">Ends of the ranges in ascending order; null for -30, -20, -10, -5, 5, 10, 20, 30 %.</param>
    /// <returns>One more range than edges; the lengths sum up to that of the route. Without heights all is level.</returns>
    /// <exception cref="ArgumentException">The edges do not ascend.</exception>
    public ImmutableArray<GradeShare> GradeHistogram(IReadOnlyList<Grade>? edges = null)
    {
        Grade[] e = edges is null ? [.. new double[] { -30, -20, -10, -5, 5, 10, 20, 30 }.Select(Grade.FromPercent)] : [.. edges];
        for (int i = 1; i < e.Length; i++)
        {
            if (e[i] <= e[i - 1])
            {
                throw new ArgumentException($"Edges of grades must ascend; {e[i]} follows {e[i - 1]}.", nameof(edges));
            }
        }

        double[] lengths = new double[e.Length + 1];
        if (_cellsM.Length < 2)
        {
            lengths[Bin(0)] = _lengthM;
        }
        else
        {
            for (int i = 0; i < _cellsM.Length; i++)
            {
                int a = Math.Max(0, i - 1), b = Math.Min(_cellsM.Length - 1, i + 1);
                lengths[Bin((_cellsM[b] - _cellsM[a]) / ((b - a) * _stepM))] += _stepM;
            }
        }

        return [.. lengths.Select((m, i) => new GradeShare(
            i == 0 ? Grade.FromRise(double.MinValue) : e[i - 1], i == e.Length ? Grade.FromRise(double.MaxValue) : e[i], Length.FromMeters(m)))];

        int Bin(double g)
        {
            int i = 0;
            while (i < e.Length && g >= e[i].RiseFraction)
            {
                i++;
            }

            return i;
        }
    }

    /// <summary>Figures of a stretch.</summary>
    /// <param name="from">[0 to the length of the route]</param>
    /// <param name="to">[<paramref name="from"/> to the length of the route]</param>
    /// <returns>The figures, at the scale of the profile.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An end is outside the route, or they are in the wrong order.</exception>
    public StretchStatistics Between(Length from, Length to)
    {
        double a = InRoute(from), b = InRoute(to);
        if (b < a)
        {
            throw new ArgumentOutOfRangeException(nameof(to), b, string.Create(CultureInfo.InvariantCulture, $"to is {b} m; it must not be before from, {a} m."));
        }

        if (!HasHeights)
        {
            return new StretchStatistics(from, to, Length.Zero, Length.Zero, default, null, null, default, default);
        }

        double h = HeightM(a), first = h, x = a, rise = 0, fall = 0, low = h, high = h, up = 0, down = 0;
        for (int i = Math.Max(0, (int)Math.Floor((a / _stepM) + 0.5)); ; i++)
        {
            double next = (i + 0.5) * _stepM;
            bool last = next >= b || i >= _cellsM.Length;
            double x1 = last ? b : next, h1 = last ? HeightM(b) : _cellsM[i];
            if (x1 > x)
            {
                double d = h1 - h;
                rise += Math.Max(d, 0);
                fall += Math.Max(-d, 0);
                low = Math.Min(low, h1);
                high = Math.Max(high, h1);
                up = Math.Max(up, d / (x1 - x));
                down = Math.Min(down, d / (x1 - x));
                (x, h) = (x1, h1);
            }

            if (last)
            {
                break;
            }
        }

        return new StretchStatistics(from, to, Length.FromMeters(rise), Length.FromMeters(fall), Grade.FromRise(b > a ? (h - first) / (b - a) : 0),
            Length.FromMeters(low), Length.FromMeters(high), Grade.FromRise(up), Grade.FromRise(down));
    }

    /// <summary>Length, ascent and descent.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString() => HasHeights ? $"{Text.F(_lengthM / 1000, 1)} km, up {Ascent}, down {Descent}" : $"{Text.F(_lengthM / 1000, 1)} km, no heights";

    internal double HeightM(double xM) => ProfileKernel.At(_cellsM, _stepM, xM);

    private static int Unknown(ReadOnlySpan<double> values)
    {
        int n = 0;
        foreach (double v in values)
        {
            n += double.IsNaN(v) ? 1 : 0;
        }

        return n;
    }

    private static string Words(HeightSource source) => source switch
    {
        HeightSource.Barometric => "barometric",
        HeightSource.Satellite => "like a satellite receiver's",
        _ => "like a terrain model's (no times to judge them by)",
    };

    /// <summary>Which of the two directions is the one to work in: decided by the data alone, the other way round for the reversed route.</summary>
    private static bool IsBackward(RideRoute route)
    {
        ReadOnlySpan<double> h = route.ElevationM, x = route.CumM;
        double total = x[^1];
        for (int i = 0, j = h.Length - 1; i < h.Length; i++, j--)
        {
            int c = h[i].CompareTo(h[j]);
            c = c != 0 ? c : x[i].CompareTo(total - x[j]);
            if (c != 0)
            {
                return c > 0;
            }
        }

        return false;
    }

    private double InRoute(Length along)
    {
        double x = along.Meters;
        return x > _lengthM && x <= _lengthM + 1e-6 ? _lengthM : Guard.InRange(x, 0, _lengthM, "m", nameof(along));
    }

    private double MeanM(double a, double b)
    {
        // Simpson over the stretch is as fine as the cells are for steps of a few cells; longer ones are sampled a cell at a time.
        int n = Math.Max(2, (int)Math.Ceiling((b - a) / _stepM));
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            sum += HeightM(a + ((i + 0.5) * (b - a) / n));
        }

        return sum / n;
    }

    private RouteSection? SectionOver(double a, double b, ref int at)
    {
        IReadOnlyList<RouteSection> sections = Route.Sections;
        while (at < sections.Count && sections[at].ToM <= a)
        {
            at++;
        }

        RouteSection? best = null;
        double most = 0;
        for (int i = at; i < sections.Count && sections[i].FromM < b; i++)
        {
            double over = Math.Min(b, sections[i].ToM) - Math.Max(a, sections[i].FromM);
            if (over > most)
            {
                (most, best) = (over, sections[i]);
            }
        }

        return best;
    }

    private ImmutableArray<Climb> Legs(int direction, Length? threshold, Length? sustained)
    {
        double t = Guard.InRange(threshold?.Meters ?? 10, 1, 1000, "m", nameof(threshold));
        double over = Guard.InRange(sustained?.Meters ?? 100, 10, 10_000, "m", nameof(sustained));
        List<int> pivots = ProfileKernel.Pivots(_cellsM, t);
        var climbs = ImmutableArray.CreateBuilder<Climb>();
        for (int k = 1; k < pivots.Count; k++)
        {
            int a = pivots[k - 1], b = pivots[k];
            double gain = _cellsM[b] - _cellsM[a];
            if (gain * direction <= 0)
            {
                continue;
            }

            int window = Math.Clamp((int)Math.Round(over / _stepM), 1, b - a);
            double steepest = double.NegativeInfinity;
            for (int i = a; i + window <= b; i++)
            {
                steepest = Math.Max(steepest, (_cellsM[i + window] - _cellsM[i]) * direction);
            }

            climbs.Add(new Climb(
                a == 0 ? 0 : (a + 0.5) * _stepM, b == _cellsM.Length - 1 ? _lengthM : (b + 0.5) * _stepM, gain,
                steepest * direction / (window * _stepM), window * _stepM));
        }

        return climbs.ToImmutable();
    }
}
