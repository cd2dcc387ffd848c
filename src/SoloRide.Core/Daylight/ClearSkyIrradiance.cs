using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>Sun on level open ground: global, direct and diffuse irradiance under a clear sky or a stated cloud cover.</summary>
/// <remarks>
/// Clear-sky models differ from measurements by 5 to 10 %; cloud is a mean over many skies, a single sky can give half or double.
/// Immutable; <c>default</c> is darkness.
/// </remarks>
[Entry]
public readonly record struct ClearSkyIrradiance
{
    private readonly double _heightM;
    private readonly ClearSkyModel _model;
    private readonly bool _outside;

    private ClearSkyIrradiance(double global, double direct, double diffuse, double cosZenith, double heightM, ClearSkyModel model, bool outside)
    {
        _outside = outside;
        GlobalWPerM2 = global;
        DirectNormalWPerM2 = direct;
        DiffuseWPerM2 = diffuse;
        _heightM = heightM;
        _model = model;
        DirectHorizontalWPerM2 = direct * Math.Max(0, cosZenith);
    }

    /// <summary>Global irradiance on level ground [W/m²].</summary>
    public double GlobalWPerM2 { get; }

    /// <summary>Direct irradiance on a surface facing the Sun [W/m²].</summary>
    public double DirectNormalWPerM2 { get; }

    /// <summary>Direct irradiance on level ground [W/m²].</summary>
    public double DirectHorizontalWPerM2 { get; }

    /// <summary>Diffuse irradiance on level ground [W/m²].</summary>
    public double DiffuseWPerM2 { get; }

    /// <summary>Global irradiance on level ground.</summary>
    public Irradiance Global => Irradiance.FromWattsPerSquareMeter(GlobalWPerM2);

    /// <summary>Direct irradiance on a surface facing the Sun.</summary>
    public Irradiance DirectNormal => Irradiance.FromWattsPerSquareMeter(DirectNormalWPerM2);

    /// <summary>Diffuse irradiance on level ground.</summary>
    public Irradiance Diffuse => Irradiance.FromWattsPerSquareMeter(DiffuseWPerM2);

    /// <summary>Share of the global irradiance that comes straight from the Sun [0 to 1]; 0 in darkness.</summary>
    public double DirectFraction => GlobalWPerM2 > 0 ? Math.Clamp(DirectHorizontalWPerM2 / GlobalWPerM2, 0, 1) : 0;

    /// <summary>What to know about the value: heights outside the model's fit, dates outside 1950 to 2100.</summary>
    public IReadOnlyList<Finding> Findings => _model == ClearSkyModel.Hottel && _heightM > HottelHighestM
        ? [
            .. SunFindings.Position(_outside),
            new Finding(
                DaylightFindingCodes.ModelHeight, FindingSeverity.Caution, "clear-sky irradiance", "The place lies above the 2500 m to which Hottel's model was fitted.",
                new FindingValue("elevation_m", _heightM.ToString("F0", CultureInfo.InvariantCulture))),
        ]
        : SunFindings.Position(_outside);

    [Source("hottel-1976", "fitted to 2.5 km")]
    private const double HottelHighestM = 2500;

    /// <summary>Irradiance at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="place">The place; an unknown height counts as 0 m, which makes the Sun weaker.</param>
    /// <param name="cloudFraction">[0 to 1] Cloud cover; 0 is a clear sky.</param>
    /// <param name="options">Model and air; null takes the defaults.</param>
    /// <param name="daylight">UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The irradiance; zero when the Sun is below the horizon.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The cloud cover is outside 0 to 1.</exception>
    public static ClearSkyIrradiance At(
        DateTimeOffset instant, GeoPoint place, double cloudFraction = 0, ClearSkyOptions? options = null, DaylightOptions? daylight = null)
        => Of(SolarPosition.At(instant, place, daylight), place, cloudFraction, options);

    /// <summary>Irradiance for a known position of the Sun.</summary>
    /// <param name="sun">The Sun.</param>
    /// <param name="place">The place.</param>
    /// <param name="cloudFraction">[0 to 1] Cloud cover.</param>
    /// <param name="options">Model and air; null takes the defaults.</param>
    /// <returns>The irradiance.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The cloud cover is outside 0 to 1.</exception>
    public static ClearSkyIrradiance Of(SolarPosition sun, GeoPoint place, double cloudFraction = 0, ClearSkyOptions? options = null)
    {
        Guard.Fraction(cloudFraction);
        options ??= ClearSkyOptions.Default;
        double heightM = double.IsNaN(place.ElevationM) ? 0 : place.ElevationM;
        double pressurePa = RefractionKernel.PressurePa(Math.Min(heightM, 20_000));
        double apparentDeg = sun.AltitudeDeg + RefractionKernel.TrueToApparentDeg(sun.AltitudeDeg, pressurePa / 100, StandardAirC);
        if (apparentDeg <= 0 || !(sun.DistanceAu > 0))
        {
            return new ClearSkyIrradiance(0, 0, 0, 0, heightM, options.Model, sun.IsOutside);
        }

        double cosZenith = Math.Sin(apparentDeg * (Math.PI / 180));
        double extra = IrradianceKernel.SolarConstantWPerM2 / (sun.DistanceAu * sun.DistanceAu);
        double airMass = IrradianceKernel.AirMass(90 - apparentDeg) * pressurePa / IrradianceKernel.SeaLevelPa;
        double global, direct, diffuse;
        switch (options.Model)
        {
            case ClearSkyModel.SimplifiedSolis:
                IrradianceKernel.SimplifiedSolis(cosZenith, options.AerosolOpticalDepthFactor, options.WaterCm, pressurePa, extra, out global, out direct, out _);

                // The model's own diffuse part does not close the sum exactly; the sum is kept.
                direct = Math.Min(direct, global / cosZenith);
                diffuse = global - (direct * cosZenith);
                break;
            case ClearSkyModel.Hottel:
                double tau = IrradianceKernel.HottelTransmittance(cosZenith, heightM / 1000, HottelClimate.MidlatitudeSummer);
                direct = extra * tau;
                diffuse = extra * cosZenith * IrradianceKernel.LiuJordanDiffuse(tau);
                global = (direct * cosZenith) + diffuse;
                break;
            default:
                IrradianceKernel.IneichenPerez(cosZenith, airMass, options.LinkeTurbidityFactor, heightM, extra, false, out global, out direct, out diffuse);
                if (options.Model == ClearSkyModel.Haurwitz)
                {
                    double ratio = global > 0 ? IrradianceKernel.HaurwitzGlobal(cosZenith) / global : 0;
                    (global, direct, diffuse) = (global * ratio, direct * ratio, diffuse * ratio);
                }

                break;
        }

        if (cloudFraction > 0)
        {
            double share = IrradianceKernel.DiffuseShare(global > 0 ? diffuse / global : 1, cloudFraction);
            global *= IrradianceKernel.CloudFactor(cloudFraction);
            diffuse = global * share;
            direct = (global - diffuse) / cosZenith;
        }

        return new ClearSkyIrradiance(global, direct, diffuse, cosZenith, heightM, options.Model, sun.IsOutside);
    }

    /// <summary>The same sky where terrain stands before the Sun or hides a part of the sky.</summary>
    /// <param name="sunVisible">Whether the Sun's disc is seen.</param>
    /// <param name="skyViewFactor">[0 to 1] Share of the sky's light that reaches the ground.</param>
    /// <returns>The irradiance there; light thrown back by slopes is left out.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The factor is outside 0 to 1.</exception>
    public ClearSkyIrradiance Under(bool sunVisible, double skyViewFactor)
    {
        Guard.Fraction(skyViewFactor);
        double diffuse = DiffuseWPerM2 * skyViewFactor, directHorizontal = sunVisible ? DirectHorizontalWPerM2 : 0;
        double cosZenith = DirectNormalWPerM2 > 0 ? DirectHorizontalWPerM2 / DirectNormalWPerM2 : 0;
        return new ClearSkyIrradiance(directHorizontal + diffuse, sunVisible ? DirectNormalWPerM2 : 0, diffuse, cosZenith, _heightM, _model, _outside);
    }

    [Source("saemundsson-1986", "reference temperature of the refraction, 10 C")]
    private const double StandardAirC = 10;
}
