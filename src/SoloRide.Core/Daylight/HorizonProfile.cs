using System.Globalization;
using System.Runtime.CompilerServices;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>The skyline round a place: the altitude at which the terrain ends and the sky begins, by azimuth.</summary>
/// <remarks>
/// An error of 0.1° of the skyline is 24 s of sun at 15″/s; 5 m of height a kilometre away is 0.3°. Trees and walls that the terrain model
/// does not hold come on top. Immutable; safe to share between threads. Equal when all angles are.
/// </remarks>
[Entry]
public sealed record HorizonProfile
{
    private readonly double[] _altitudeDeg;

    private HorizonProfile(double[] altitudeDeg, GeoPoint? place, Finding[] findings)
    {
        _altitudeDeg = altitudeDeg;
        Place = place;
        Findings = findings;
    }

    /// <summary>Where it was read; null for one made from angles.</summary>
    public GeoPoint? Place { get; }

    /// <summary>Altitude of the skyline [°] at evenly spaced azimuths, the first at north, clockwise.</summary>
    public IReadOnlyList<double> AltitudesDeg => _altitudeDeg;

    /// <summary>What to know: parts of the ring without heights.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>
    /// Share of the light of an evenly bright sky that reaches level ground [0 to 1]: the mean over azimuth of cos² of the skyline's altitude,
    /// negative altitudes counted as 0.
    /// </summary>
    public double SkyViewFactor
    {
        [Source("sky-view-factor", "level ground, isotropic sky: mean of cos^2 h")]
        get
        {
            double sum = 0;
            foreach (double a in _altitudeDeg)
            {
                double c = Math.Cos(Math.Max(0, a) * (Math.PI / 180));
                sum += c * c;
            }

            return sum / _altitudeDeg.Length;
        }
    }

    /// <summary>The highest altitude of the skyline.</summary>
    public Angle Highest => Angle.FromDegrees(_altitudeDeg.Max());

    /// <summary>A level skyline.</summary>
    /// <param name="altitudeDeg">[°, −10 to 89] Its altitude; 0 by default.</param>
    /// <returns>The profile.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public static HorizonProfile Level(double altitudeDeg = 0)
    {
        Guard.InRange(altitudeDeg, -10, 89, "deg");
        return new HorizonProfile([altitudeDeg, altitudeDeg, altitudeDeg, altitudeDeg], null, []);
    }

    /// <summary>A skyline from measured or stored angles.</summary>
    /// <param name="altitudesDeg">[°, −10 to 89] At evenly spaced azimuths, the first at north, clockwise; at least four.</param>
    /// <param name="place">Where it holds; null when unknown.</param>
    /// <returns>The profile.</returns>
    /// <exception cref="ArgumentException">Fewer than four angles.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An angle is outside its range.</exception>
    public static HorizonProfile FromAngles(ReadOnlySpan<double> altitudesDeg, GeoPoint? place = null)
    {
        if (altitudesDeg.Length < 4)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"altitudesDeg holds {altitudesDeg.Length} angles; at least 4 are needed."), nameof(altitudesDeg));
        }

        foreach (double a in altitudesDeg)
        {
            Guard.InRange(a, -10, 89, "deg", nameof(altitudesDeg));
        }

        return new HorizonProfile(altitudesDeg.ToArray(), place, []);
    }

    /// <summary>Reads the skyline from terrain.</summary>
    /// <param name="place">The observer; the terrain's own height at the place is used, and the place's where the terrain has none.</param>
    /// <param name="terrain">The terrain.</param>
    /// <param name="options">Azimuths, range, eye; null takes the defaults.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The profile; azimuths without any height get altitude 0 and a finding.</returns>
    /// <exception cref="ArgumentNullException">The terrain is null.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static HorizonProfile Of(GeoPoint place, ITerrainHeights terrain, HorizonOptions? options = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(terrain);
        options ??= HorizonOptions.Default;
        var altitudes = new double[options.Azimuths];
        bool groundKnown = Scan(place, terrain, options, altitudes, cancellation, out int steps, out int unknown, out int blank);
        return new HorizonProfile(altitudes, place, Gaps(steps * altitudes.Length, unknown, blank, groundKnown));
    }

    /// <summary>
    /// Reads the skyline from terrain into memory of the caller, without any allocation: for many places in a row.
    /// <see cref="FromAngles"/> makes a profile of the angles.
    /// </summary>
    /// <param name="place">The observer; the terrain's own height at the place is used, and the place's where the terrain has none.</param>
    /// <param name="terrain">The terrain.</param>
    /// <param name="altitudesDeg">Receives the altitudes [°] at evenly spaced azimuths, the first at north, clockwise; 8 to 7200, which goes before <see cref="HorizonOptions.Azimuths"/>.</param>
    /// <param name="options">Range, eye, refraction; null takes the defaults.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>What to know: parts of the ring without heights; empty, and then without allocation, when all are known.</returns>
    /// <exception cref="ArgumentNullException">The terrain is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The span is shorter than 8 or longer than 7200.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static IReadOnlyList<Finding> Fill(GeoPoint place, ITerrainHeights terrain, Span<double> altitudesDeg, HorizonOptions? options = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(terrain);
        Guard.InRange(altitudesDeg.Length, 8, 7200, "azimuths", nameof(altitudesDeg));
        bool groundKnown = Scan(place, terrain, options ?? HorizonOptions.Default, altitudesDeg, cancellation, out int steps, out int unknown, out int blank);
        return Gaps(steps * altitudesDeg.Length, unknown, blank, groundKnown);
    }

    /// <summary>Altitude of the skyline at an azimuth [°], linear between neighbours.</summary>
    /// <param name="azimuthDeg">[°] From north, clockwise; any turn.</param>
    /// <returns>The altitude [°].</returns>
    /// <exception cref="ArgumentOutOfRangeException">The azimuth is not finite.</exception>
    public double AltitudeDeg(double azimuthDeg) => AltitudeRad(Guard.Finite(azimuthDeg, "deg") * (Math.PI / 180)) * (180 / Math.PI);

    /// <summary>Same angles.</summary>
    /// <param name="other">The other profile.</param>
    /// <returns>Whether all are equal.</returns>
    public bool Equals(HorizonProfile? other) => other is not null && _altitudeDeg.AsSpan().SequenceEqual(other._altitudeDeg);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(_altitudeDeg.Length, _altitudeDeg[0], _altitudeDeg[^1]);

    [SkipLocalsInit]
    private static bool Scan(
        GeoPoint place, ITerrainHeights terrain, HorizonOptions options, Span<double> altitudesDeg, CancellationToken cancellation, out int steps, out int unknown, out int blank)
    {
        Span<double> all = stackalloc double[HorizonKernel.MaxSteps];
        steps = HorizonKernel.Distances(options.NearStepM, options.RangeM, all);
        ReadOnlySpan<double> distances = all[..steps];
        unknown = blank = 0;
        bool groundKnown = Ground(place, terrain, out double groundM);
        for (int i = 0; i < altitudesDeg.Length; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            double t = HorizonKernel.Tangent(
                terrain, place.LatDeg, place.LonDeg, groundM + options.EyeM, i * (2 * Math.PI / altitudesDeg.Length), distances, options.RefractionFactor, ref unknown);
            blank += double.IsNaN(t) ? 1 : 0;
            altitudesDeg[i] = double.IsNaN(t) ? 0 : Math.Atan(t) * (180 / Math.PI);
        }

        return groundKnown;
    }

    private static Finding[] Gaps(int samples, int unknown, int blank, bool groundKnown) => unknown == 0 && groundKnown
        ? []
        : [
            new Finding(
                DaylightFindingCodes.TerrainGap, blank > 0 || !groundKnown ? FindingSeverity.Warning : FindingSeverity.Caution, "horizon",
                groundKnown
                    ? "Part of the terrain round the place has no heights; the skyline there may be too low and the sun too long."
                    : "The height of the place itself is not known; it counts as 0 m and the skyline is not to be trusted.",
                new FindingValue("share_unknown", Text.F(unknown / (double)samples, 3)),
                new FindingValue("azimuths_blank", blank.ToString(CultureInfo.InvariantCulture))),
        ];

    internal static bool Ground(GeoPoint place, ITerrainHeights terrain, out double groundM)
    {
        groundM = terrain.HeightM(place.LatDeg, place.LonDeg);
        if (double.IsNaN(groundM))
        {
            groundM = place.ElevationM;
        }

        bool known = !double.IsNaN(groundM);
        groundM = known ? groundM : 0;
        return known;
    }

    internal double AltitudeRad(double azimuthRad)
    {
        double x = azimuthRad * (_altitudeDeg.Length / (2 * Math.PI));
        double whole = Math.Floor(x);
        double part = x - whole;
        int n = _altitudeDeg.Length, i = (int)(whole % n);
        i = i < 0 ? i + n : i;
        double a = _altitudeDeg[i], b = _altitudeDeg[i + 1 == n ? 0 : i + 1];
        return (a + (part * (b - a))) * (Math.PI / 180);
    }
}
