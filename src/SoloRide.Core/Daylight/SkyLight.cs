using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>The light of the sky at a place and instant: phase, Sun, Moon, and how much falls on open ground.</summary>
/// <remarks>
/// For a free horizon and a clear sky; good to about 30 %. Under trees a tenth or less of it reaches the trail, under thick cloud about a
/// tenth (common practice, no source). Immutable; <c>default</c> is not meaningful.
/// </remarks>
[Entry]
public readonly record struct SkyLight
{
    private readonly bool _outside;

    private SkyLight(double sinSun, in MoonPosition moon, bool outside)
    {
        _outside = outside;
        Phase = SkyLightKernel.Phase(sinSun);
        SunAltitudeDeg = Math.Asin(Math.Clamp(sinSun, -1, 1)) * (180 / Math.PI);
        MoonAltitudeDeg = moon.AltitudeDeg;
        MoonIlluminatedFraction = moon.IlluminatedFraction;
        MoonLux = moon.GroundLux;
        SunLux = SkyLightKernel.SunOnlyLux(SunAltitudeDeg);
    }

    /// <summary>Light phase by the Sun's altitude.</summary>
    public LightPhase Phase { get; }

    /// <summary>Airless altitude of the Sun's centre [°].</summary>
    public double SunAltitudeDeg { get; }

    /// <summary>Airless altitude of the Moon's centre [°].</summary>
    public double MoonAltitudeDeg { get; }

    /// <summary>Lit share of the Moon's disc [0 to 1].</summary>
    public double MoonIlluminatedFraction { get; }

    /// <summary>Light of Sun and twilight on level ground [lx].</summary>
    public double SunLux { get; }

    /// <summary>Light of the Moon on level ground [lx]; 0 when it is down.</summary>
    public double MoonLux { get; }

    /// <summary>All light on level open ground [lx]: Sun, Moon, stars and airglow.</summary>
    public double GroundLux => SunLux + MoonLux + SkyLightKernel.NightSkyLux;

    /// <summary>All light on level open ground.</summary>
    public Illuminance GroundIlluminance => Illuminance.FromLux(GroundLux);

    /// <summary>Whether the phase is past civil twilight, so that riding needs lights.</summary>
    public bool NeedsLights => Phase > LightPhase.CivilTwilight;

    /// <summary>What to know about the light: free horizon and clear sky, span of validity.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Events(_outside);

    internal bool IsOutside => _outside;

    /// <summary>The light at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="place">The observer.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The light.</returns>
    public static SkyLight At(DateTimeOffset instant, GeoPoint place, DaylightOptions? options = null)
    {
        SolarPosition sun = SolarPosition.At(instant, place, options);
        return new SkyLight(Math.Sin(sun.AltitudeDeg * (Math.PI / 180)), MoonPosition.At(instant, place, options), sun.IsOutside);
    }

    /// <summary>The light along a route: one instant and place a step.</summary>
    /// <param name="instants">The instants; ascending ones are fast.</param>
    /// <param name="places">As many places.</param>
    /// <param name="lights">Receives as many values.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    public static void Along(ReadOnlySpan<DateTimeOffset> instants, ReadOnlySpan<GeoPoint> places, Span<SkyLight> lights, DaylightOptions? options = null)
    {
        Guard.SameLength(instants.Length, places.Length, nameof(places));
        Guard.SameLength(instants.Length, lights.Length, nameof(lights));
        options ??= DaylightOptions.Default;
        var track = new SunTrack(options);
        for (int i = 0; i < instants.Length; i++)
        {
            double sin = SinAltitude(ref track, instants[i], places[i]);
            lights[i] = new SkyLight(sin, MoonPosition.At(instants[i], places[i], options), SunFindings.IsOutside(TimeScaleKernel.Days(instants[i].UtcTicks)));
        }
    }

    /// <summary>Only the light phases along a route; some tens of nanoseconds a step.</summary>
    /// <param name="instants">The instants; ascending ones are fast.</param>
    /// <param name="places">As many places.</param>
    /// <param name="phases">Receives as many phases.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    public static void Phases(ReadOnlySpan<DateTimeOffset> instants, ReadOnlySpan<GeoPoint> places, Span<LightPhase> phases, DaylightOptions? options = null)
    {
        Guard.SameLength(instants.Length, places.Length, nameof(places));
        Guard.SameLength(instants.Length, phases.Length, nameof(phases));
        var track = new SunTrack(options ?? DaylightOptions.Default);
        for (int i = 0; i < instants.Length; i++)
        {
            phases[i] = SkyLightKernel.Phase(SinAltitude(ref track, instants[i], places[i]));
        }
    }

    /// <summary>The light phase at one instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="place">The observer.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The phase.</returns>
    public static LightPhase PhaseAt(DateTimeOffset instant, GeoPoint place, DaylightOptions? options = null)
        => SolarPosition.At(instant, place, options).Phase;

    internal static double SinAltitude(ref SunTrack track, DateTimeOffset instant, GeoPoint place)
    {
        double days = TimeScaleKernel.Days(instant.UtcTicks);
        track.Seek(days);
        return track.Path.SinAltitude(track.Path.U(days), SolarPosition.Observer(place));
    }
}
