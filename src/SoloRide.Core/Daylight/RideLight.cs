using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>The light along a whole ride: phases, hours that need lights, and how dark the dark part is.</summary>
/// <remarks>For a free horizon and a clear sky; terrain, trees and cloud make it darker and earlier. Immutable; safe to share.</remarks>
[Entry]
public sealed record RideLight
{
    private static readonly TimeSpan LongestPart = TimeSpan.FromMinutes(5);

    private readonly double _darkestLux, _darkMeanLux;

    private RideLight(SkyLight[] steps, TimeSpan[] byPhase, DateTimeOffset? firstDark, TimeSpan moonlit, double darkestLux, double darkMeanLux)
    {
        Steps = steps;
        ByPhase = byPhase;
        LightsFrom = firstDark;
        MoonlitDark = moonlit;
        _darkestLux = darkestLux;
        _darkMeanLux = darkMeanLux;
    }

    /// <summary>The light at each step.</summary>
    public IReadOnlyList<SkyLight> Steps { get; }

    /// <summary>Time spent in each <see cref="LightPhase"/>, in the order of its values.</summary>
    public IReadOnlyList<TimeSpan> ByPhase { get; }

    /// <summary>Riding that needs lights: the Sun more than 6° down.</summary>
    public TimeSpan NeedingLights => ByPhase[2] + ByPhase[3] + ByPhase[4];

    /// <summary>First instant of the ride that needs lights; null when none does.</summary>
    public DateTimeOffset? LightsFrom { get; }

    /// <summary>Part of <see cref="NeedingLights"/> with the Moon up and giving at least 0.02 lx, ten times a starlit sky.</summary>
    public TimeSpan MoonlitDark { get; }

    /// <summary>The least light on open ground in the ride.</summary>
    public Illuminance Darkest => Illuminance.FromLux(_darkestLux);

    /// <summary>The mean light on open ground while lights are needed; null when they never are.</summary>
    public Illuminance? MeanWhileDark => double.IsNaN(_darkMeanLux) ? null : Illuminance.FromLux(_darkMeanLux);

    /// <summary>What to know about the light: free horizon and clear sky, span of validity.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Events(Steps[0].IsOutside || Steps[^1].IsOutside);

    /// <summary>Follows the light along a ride; steps are cut to five minutes or less within.</summary>
    /// <param name="instants">Ascending instants, one a step; time between two belongs to the ride.</param>
    /// <param name="places">As many places.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The light.</returns>
    /// <exception cref="ArgumentException">The spans are empty, differ in length, or the instants do not ascend.</exception>
    public static RideLight Along(ReadOnlySpan<DateTimeOffset> instants, ReadOnlySpan<GeoPoint> places, DaylightOptions? options = null)
    {
        RideSteps.Check(instants, places);
        options ??= DaylightOptions.Default;
        var steps = new SkyLight[instants.Length];
        SkyLight.Along(instants, places, steps, options);
        var phases = new long[5];
        ReadOnlySpan<double> bounds = [SkyLightKernel.SinRiseSet, SkyLightKernel.SinCivil, SkyLightKernel.SinNautical, SkyLightKernel.SinAstronomical];
        Span<double> below = stackalloc double[6];
        var track = new SunTrack(options);
        DateTimeOffset? firstDark = steps[0].NeedsLights ? instants[0] : null;
        double darkest = steps[0].GroundLux, darkLuxTicks = 0;
        long moonlit = 0, dark = 0;
        double sin = SkyLight.SinAltitude(ref track, instants[0], places[0]);
        SkyLight light = steps[0];
        for (int i = 1; i < instants.Length; i++)
        {
            int parts = RideSteps.Parts(instants[i] - instants[i - 1], LongestPart);
            long from = instants[i - 1].Ticks, length = instants[i].Ticks - from, at = from;
            for (int k = 1; k <= parts; k++)
            {
                long to = from + (length * k / parts), ticks = to - at;
                var now = new DateTimeOffset(to, instants[i - 1].Offset);
                GeoPoint place = RideSteps.Between(places[i - 1], places[i], k / (double)parts);
                double next = SkyLight.SinAltitude(ref track, now, place);
                SkyLight lightNow = k == parts ? steps[i] : light.Phase == LightPhase.Day && next > SkyLightKernel.SinRiseSet ? light : SkyLight.At(now, place, options);

                // Share of the part below each bound, the sine running evenly in it.
                below[0] = 1;
                below[5] = 0;
                for (int b = 0; b < 4; b++)
                {
                    below[b + 1] = sin > bounds[b] ? next > bounds[b] ? 0 : (bounds[b] - next) / (sin - next)
                        : next > bounds[b] ? (bounds[b] - sin) / (next - sin) : 1;
                }

                for (int p = 0; p < 5; p++)
                {
                    phases[p] += (long)Math.Round((below[p] - below[p + 1]) * ticks);
                }

                long darkTicks = (long)Math.Round(below[2] * ticks);
                if (darkTicks > 0)
                {
                    firstDark ??= new DateTimeOffset(sin > bounds[1] ? to - darkTicks : at, instants[i - 1].Offset);
                    dark += darkTicks;
                    double lux = 0.5 * (light.GroundLux + lightNow.GroundLux);
                    darkLuxTicks += darkTicks * Math.Min(lux, CivilEndLux);
                    moonlit += 0.5 * (light.MoonLux + lightNow.MoonLux) >= MoonlitLux ? darkTicks : 0;
                }

                if (lightNow.Phase != LightPhase.Day || light.Phase != LightPhase.Day)
                {
                    darkest = Math.Min(darkest, lightNow.GroundLux);
                }

                (sin, light, at) = (next, lightNow, to);
            }

            darkest = Math.Min(darkest, steps[i].GroundLux);
        }

        return new RideLight(
            steps, [.. phases.Select(t => TimeSpan.FromTicks(t))], firstDark, TimeSpan.FromTicks(moonlit), darkest, dark == 0 ? double.NaN : darkLuxTicks / dark);
    }

    [Source("assumption-moonlit", "0.02 lx, ten times the starlit sky")]
    private const double MoonlitLux = 0.02;

    [Source("illuminance-polynomials", "Sun at -6 deg")]
    private const double CivilEndLux = 3.412;
}
