using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Direct sun along a route as the rider moves through the terrain.</summary>
/// <remarks>Shade tells temperature and ice, not twilight. Immutable; safe to share.</remarks>
[Entry]
public sealed record SunOnRoute
{
    private SunOnRoute(bool[] inSun, double[] skylineDeg, DateTimeOffset? first, DateTimeOffset? last, TimeSpan direct, TimeSpan shade, Finding[] findings)
    {
        InSun = inSun;
        SkylineDeg = skylineDeg;
        FirstSun = first;
        LastSun = last;
        DirectSun = direct;
        TerrainShade = shade;
        Findings = findings;
    }

    /// <summary>Whether the Sun's disc is seen at each step.</summary>
    public IReadOnlyList<bool> InSun { get; }

    /// <summary>Altitude of the skyline toward the Sun at each step [°]; NaN where the Sun is far below the horizon and was not looked for.</summary>
    public IReadOnlyList<double> SkylineDeg { get; }

    /// <summary>First direct sun of the ride; null when there is none.</summary>
    public DateTimeOffset? FirstSun { get; }

    /// <summary>Last direct sun of the ride.</summary>
    public DateTimeOffset? LastSun { get; }

    /// <summary>All direct sun of the ride.</summary>
    public TimeSpan DirectSun { get; }

    /// <summary>Time with the Sun above a free horizon and behind terrain.</summary>
    public TimeSpan TerrainShade { get; }

    /// <summary>What to know about the result.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Follows the Sun along a route: between steps the rider moves evenly, and the terrain toward the Sun is looked at least once a minute of riding.</summary>
    /// <param name="instants">Ascending instants, one a step.</param>
    /// <param name="places">As many places.</param>
    /// <param name="terrain">The terrain.</param>
    /// <param name="horizon">Range, eye and refraction of the line of sight; null takes the defaults.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Sun and shade.</returns>
    /// <exception cref="ArgumentNullException">The terrain is null.</exception>
    /// <exception cref="ArgumentException">The spans are empty, differ in length, or the instants do not ascend.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static SunOnRoute Along(
        ReadOnlySpan<DateTimeOffset> instants, ReadOnlySpan<GeoPoint> places, ITerrainHeights terrain,
        HorizonOptions? horizon = null, DaylightOptions? options = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(terrain);
        RideSteps.Check(instants, places);
        horizon ??= HorizonOptions.Default;
        double[] distances = HorizonKernel.Distances(horizon.NearStepM, horizon.RangeM);
        var track = new SunTrack(options ?? DaylightOptions.Default);
        int n = instants.Length;
        var inSun = new bool[n];
        var skyline = new double[n];
        DateTimeOffset? first = null, last = null;
        long direct = 0, shade = 0;
        int unknown = 0, looks = 0;
        double margin = Look(ref track, instants[0], places[0], out skyline[0], out bool up);
        inSun[0] = margin > 0;
        if (inSun[0])
        {
            first = last = instants[0];
        }

        for (int i = 1; i < n; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            int parts = RideSteps.Parts(instants[i] - instants[i - 1], TimeSpan.FromMinutes(1));
            long from = instants[i - 1].Ticks, length = instants[i].Ticks - from;
            DateTimeOffset before = instants[i - 1];
            for (int k = 1; k <= parts; k++)
            {
                DateTimeOffset now = k == parts ? instants[i] : new DateTimeOffset(from + (length * k / parts), instants[i - 1].Offset);
                double next = Look(ref track, now, RideSteps.Between(places[i - 1], places[i], k / (double)parts), out double angle, out bool upNow);
                long ticks = (now - before).Ticks;

                // The margin runs evenly within the minute; its zero parts sun from shade.
                double share = margin > 0 ? next > 0 ? 1 : margin / (margin - next) : next > 0 ? next / (next - margin) : 0;
                long sunny = (long)(share * ticks);
                direct += sunny;
                shade += up || upNow ? (up && upNow ? ticks : ticks / 2) - Math.Min(sunny, up && upNow ? ticks : ticks / 2) : 0;
                if (sunny > 0 || next > 0)
                {
                    first ??= margin > 0 ? before : now.AddTicks(-sunny);
                    last = next > 0 ? now : before.AddTicks(sunny);
                }

                (margin, up, before) = (next, upNow, now);
                if (k == parts)
                {
                    skyline[i] = angle;
                    inSun[i] = next > 0;
                }
            }
        }

        bool outside = SunFindings.IsOutside(TimeScaleKernel.Days(instants[0].UtcTicks)) || SunFindings.IsOutside(TimeScaleKernel.Days(instants[^1].UtcTicks));
        Finding[] findings = unknown == 0 ? [.. SunFindings.Position(outside)] :
        [
            .. SunFindings.Position(outside),
            new Finding(
                DaylightFindingCodes.TerrainGap, FindingSeverity.Caution, "horizon", "Part of the terrain toward the sun has no heights; the sun there may come out too long.",
                new FindingValue("share_unknown", Text.F(unknown / ((double)Math.Max(1, looks) * distances.Length), 3)),
                new FindingValue("looks", looks.ToString(CultureInfo.InvariantCulture))),
        ];
        return new SunOnRoute(inSun, skyline, first, last, TimeSpan.FromTicks(direct), TimeSpan.FromTicks(shade), findings);

        // Altitude of the Sun's upper limb above the skyline [rad].
        double Look(ref SunTrack sunTrack, DateTimeOffset instant, GeoPoint place, out double skylineDeg, out bool aboveFreeHorizon)
        {
            double days = TimeScaleKernel.Days(instant.UtcTicks);
            sunTrack.Seek(days);
            sunTrack.Path.Topocentric(sunTrack.Path.U(days), SolarPosition.Observer(place), out double azimuth, out double altitude);
            double free = altitude - (SunEventsKernel.RiseSetAltitudeDeg * (Math.PI / 180));
            aboveFreeHorizon = free > 0;
            if (altitude < LowestLookRad)
            {
                skylineDeg = double.NaN;
                return free;
            }

            _ = HorizonProfile.Ground(place, terrain, out double groundM);
            double t = HorizonKernel.Tangent(terrain, place.LatDeg, place.LonDeg, groundM + horizon.EyeM, azimuth, distances, horizon.RefractionFactor, ref unknown);
            looks++;
            double angle = double.IsNaN(t) ? 0 : Math.Atan(t);
            skylineDeg = angle * (180 / Math.PI);
            return altitude - SunShadeKernel.ThresholdRad(angle, 1);
        }
    }

    // Below this no skyline of the Earth lets the Sun through.
    private const double LowestLookRad = -5 * Math.PI / 180;
}
