using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Wind chill on a bare face, riding speed added to the wind, and the published frostbite band.</summary>
/// <remarks>
/// <para>Index of 2001. It takes wind at 10 m and counts two thirds of it at the face; riding speed blows at the face, so it is added there (the worst
/// case: wind from ahead). Range: air up to 10 °C and 4.8 km/h or more; below that speed the index of still air is the air's temperature.</para>
/// <para>The bands are ranges as published, no computed minutes. Sources: wind-chill-2001, wind-chill-bands. Immutable.</para>
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record WindChill
{
    /// <summary>Share of the 10 m wind that the index assumes at the face.</summary>
    [Source("wind-chill-2001", "face wind")]
    private const double FaceShare = 2.0 / 3;

    private const double CalmKmh = 4.8;
    private const double HighestAirC = 10;

    private readonly double _indexC;
    private readonly double _windKmh;

    private WindChill(double indexC, double windKmh, FrostbiteBand band, IReadOnlyList<Finding> findings)
    {
        _indexC = indexC;
        _windKmh = windKmh;
        Frostbite = band;
        Findings = findings;
    }

    /// <summary>Wind chill; a number that compares with still-air temperatures, not a temperature of anything.</summary>
    public Temperature Index => Temperature.FromDegreesCelsius(_indexC);

    /// <summary>Wind at 10 m that would blow as hard at the face as wind and riding together.</summary>
    public Speed WindAtTenMetres => Speed.FromKilometersPerHour(_windKmh);

    /// <summary>Published band of frostbite risk.</summary>
    public FrostbiteBand Frostbite { get; }

    /// <summary>What was assumed or outside the range.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = ExposureCautions.WindChill;

    /// <summary>Computes it.</summary>
    /// <param name="airTemperature">[-80 to 60 °C; the index is for 10 °C and below].</param>
    /// <param name="wind">[0 to 60 m/s].</param>
    /// <param name="ridingSpeed">[0 to 30 m/s].</param>
    /// <param name="windHeight">Where the wind holds; 10 m unless stated.</param>
    /// <returns>Wind chill.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static WindChill At(Temperature airTemperature, Speed wind, Speed ridingSpeed = default, WindHeight windHeight = WindHeight.TenMetres)
    {
        double airC = Guard.InRange(airTemperature.DegreesCelsius, -80, 60, "deg C", nameof(airTemperature));
        double windMps = Guard.InRange(wind.MetersPerSecond, 0, 60, "m/s", nameof(wind));
        double rideMps = Guard.InRange(ridingSpeed.MetersPerSecond, 0, 30, "m/s", nameof(ridingSpeed));
        Guard.Defined(windHeight);
        var findings = new List<Finding>();
        double kmh = EquivalentKmh(windMps, rideMps, windHeight);
        double index;
        if (airC > HighestAirC)
        {
            index = airC;
            findings.Add(new Finding(ExposureFindingCodes.WindChillRange, FindingSeverity.Note, "air temperature", "Wind chill is defined for air of 10 C and below; the air temperature is given."));
        }
        else if (kmh < CalmKmh)
        {
            index = airC;
            findings.Add(new Finding(ExposureFindingCodes.WindChillCalm, FindingSeverity.Note, "wind", "Below 4.8 km/h the index is not defined; the air temperature is given."));
        }
        else
        {
            // The formula can come out above the air's temperature at its edge; wind never warms cold skin.
            index = Math.Min(airC, WindChillKernel.IndexC(airC, kmh));
        }

        FrostbiteBand band = Band(airC, index);
        if (band >= FrostbiteBand.Freezing10To30Minutes)
        {
            findings.Add(new Finding(ExposureFindingCodes.Frostbite, FindingSeverity.Warning, "bare skin",
                string.Create(CultureInfo.InvariantCulture, $"Wind chill {Text.F(index, 0)}: published band: {Words(band)}. Cover all skin.")));
        }

        return new WindChill(index, kmh, band, findings.AsReadOnly());
    }

    /// <summary>One line, then findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Render.Lines($"Wind chill {Text.F(_indexC, 0)} at {Text.F(_windKmh, 0)} km/h: {Words(Frostbite)}.", Findings, Cautions);

    internal static double EquivalentKmh(double windMps, double rideMps, WindHeight height)
        => 3.6 * ((height == WindHeight.TenMetres ? windMps : windMps / FaceShare) + (rideMps / FaceShare));

    /// <summary>Band of an index; between two printed whole numbers the colder band holds.</summary>
    [Source("wind-chill-bands")]
    internal static FrostbiteBand Band(double airC, double indexC) => (airC, indexC) switch
    {
        ( >= 0, _) => FrostbiteBand.None,
        (_, > -10) => FrostbiteBand.Slight,
        (_, >= -27) => FrostbiteBand.Low,
        (_, >= -39) => FrostbiteBand.Freezing10To30Minutes,
        (_, >= -47) => FrostbiteBand.Freezing5To10Minutes,
        (_, >= -54) => FrostbiteBand.Freezing2To5Minutes,
        _ => FrostbiteBand.FreezingUnder2Minutes,
    };

    private static string Words(FrostbiteBand band) => band switch
    {
        FrostbiteBand.None => "skin does not freeze above 0 C; hypothermia can come",
        FrostbiteBand.Slight => "slight risk to bare skin",
        FrostbiteBand.Low => "low risk of frostbite, hypothermia when out long",
        FrostbiteBand.Freezing10To30Minutes => "exposed skin can freeze in 10 to 30 minutes",
        FrostbiteBand.Freezing5To10Minutes => "exposed skin can freeze in 5 to 10 minutes",
        FrostbiteBand.Freezing2To5Minutes => "exposed skin can freeze in 2 to 5 minutes",
        _ => "exposed skin can freeze in less than 2 minutes",
    };
}
