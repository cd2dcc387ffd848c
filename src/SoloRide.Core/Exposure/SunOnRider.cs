using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Sunlight on a rider: irradiance, what the body takes up, and the mean radiant temperature for <see cref="HeatStrain"/>.</summary>
/// <remarks>
/// <para>Without measured irradiance: clear sky by the sun's altitude alone (Haurwitz), cloud by Kasten and Czeplak; typical error some 10 % under a
/// clear sky at low heights, more under broken cloud; thin mountain air is stronger by about 7 % per 1 000 m (common practice, no source).</para>
/// <para>Body: standing, turned any way; absorption 0.7, emissivity 0.97. Sources: haurwitz-1945, kasten-czeplak-1980, vdi-3787-2,
/// unsworth-monteith-1975. Immutable; safe to share between threads.</para>
/// </remarks>
[Entry]
public sealed record SunOnRider
{
    private readonly double _globalWm2;
    private readonly double _diffuseWm2;
    private readonly double _beamWm2;
    private readonly double _absorbedWm2;
    private readonly double _radiantC;

    private SunOnRider(double globalWm2, double diffuseWm2, double beamWm2, double absorbedWm2, double radiantC, IReadOnlyList<Finding> findings)
    {
        _globalWm2 = globalWm2;
        _diffuseWm2 = diffuseWm2;
        _beamWm2 = beamWm2;
        _absorbedWm2 = absorbedWm2;
        _radiantC = radiantC;
        Findings = findings;
    }

    /// <summary>Global irradiance on level ground, in the open.</summary>
    public Irradiance Global => Irradiance.FromWattsPerSquareMeter(_globalWm2);

    /// <summary>Diffuse part.</summary>
    public Irradiance Diffuse => Irradiance.FromWattsPerSquareMeter(_diffuseWm2);

    /// <summary>Beam across itself, in the open.</summary>
    public Irradiance DirectNormal => Irradiance.FromWattsPerSquareMeter(_beamWm2);

    /// <summary>Short-wave radiation taken up per body surface.</summary>
    public Irradiance Absorbed => Irradiance.FromWattsPerSquareMeter(_absorbedWm2);

    /// <summary>Mean radiant temperature.</summary>
    public Temperature MeanRadiantTemperature => Temperature.FromDegreesCelsius(_radiantC);

    /// <summary>What was assumed.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = ExposureCautions.Heat;

    /// <summary>Computes it.</summary>
    /// <param name="input">Sun, sky and air.</param>
    /// <returns>Sunlight on the rider; no sun below the horizon is a result.</returns>
    /// <exception cref="ArgumentNullException">Input is null.</exception>
    public static SunOnRider At(SunInput input)
    {
        SunInput x = Guard.NotNull(input);
        var findings = new List<Finding>();
        double cloud = (x.CloudPct ?? 0) / 100;
        if (x.CloudPct is null)
        {
            findings.Add(new Finding(ExposureFindingCodes.Assumed, FindingSeverity.Note, "cloud", "Cloud is not known; a clear sky is assumed."));
        }

        double clear = SunKernel.ClearSkyWm2(Math.Sin(x.SunAltitudeDeg * Math.PI / 180));
        (double global, double diffuseShare) = SunKernel.UnderCloud(clear, cloud);
        if (!double.IsNaN(x.GlobalWm2))
        {
            global = x.GlobalWm2;
        }
        else
        {
            findings.Add(new Finding(ExposureFindingCodes.Assumed, FindingSeverity.Note, "irradiance", "Estimated from the sun's altitude and cloud; broken cloud and mountain air can give more."));
        }

        double diffuse = double.IsNaN(x.DiffuseWm2) ? global * (x.SunAltitudeDeg > 0 ? diffuseShare : 1) : Math.Min(x.DiffuseWm2, global);
        if (x.DiffuseWm2 > global)
        {
            findings.Add(new Finding(ExposureFindingCodes.Assumed, FindingSeverity.Caution, "diffuse irradiance",
                string.Create(CultureInfo.InvariantCulture, $"{x.DiffuseWm2:0} W/m2 is more than the global {global:0} W/m2; counted as all diffuse.")));
        }

        if (x.SunAltitudeDeg is > 0 and < 2 && global - diffuse > 1)
        {
            findings.Add(new Finding(ExposureFindingCodes.LowSun, FindingSeverity.Note, "irradiance", "The sun stands below 2 deg: the strength of its beam is uncertain."));
        }

        double beam = SunKernel.BeamWm2(global, diffuse, x.SunAltitudeDeg);
        double absorbed = SunKernel.AbsorbedWm2(beam * x.DirectSunFraction, diffuse, global, x.SunAltitudeDeg, x.GroundAlbedoFraction);
        double radiant = SunKernel.MeanRadiantC(x.AirC, x.RelHumidityPct / 100 * HumidityKernel.TetensKpa(x.AirC) * 10, cloud, x.GroundAboveAirK, absorbed);
        return new SunOnRider(global, diffuse, beam, absorbed, radiant, findings.AsReadOnly());
    }

    /// <summary>One line, then findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines($"Sun {Text.F(_globalWm2, 0)} W/m2 on level ground, {Text.F(_absorbedWm2, 0)} W/m2 taken up, mean radiant temperature {Text.F(_radiantC, 1)} C.", Findings, Cautions);
}
