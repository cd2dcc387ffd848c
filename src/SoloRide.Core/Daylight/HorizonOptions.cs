using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>How a horizon is read from terrain.</summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
public sealed record HorizonOptions
{
    private readonly int _azimuths = 720;
    private readonly double _rangeM = 30_000;
    private readonly double _eyeM = 1.6;
    private readonly double _refraction = HorizonKernel.StandardRefraction;
    private readonly double _nearStepM = 5;

    /// <summary>The defaults: every half degree to 30 km, eye at 1.6 m.</summary>
    public static HorizonOptions Default { get; } = new();

    /// <summary>Number of azimuths round the horizon [8 to 7200]; 720 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public int Azimuths
    {
        get => _azimuths;
        init => _azimuths = Guard.InRange(value, 8, 7200, "azimuths", nameof(Azimuths));
    }

    /// <summary>How far the terrain is searched [100 m to 200 km]; 30 km by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public Length Range
    {
        get => Length.FromMeters(_rangeM);
        init => _rangeM = Guard.InRange(value.Meters, 100, 200_000, "m", nameof(Range));
    }

    /// <summary>Height of the eye above the ground [0 to 500 m]; 1.6 m by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public Length EyeHeight
    {
        get => Length.FromMeters(_eyeM);
        init => _eyeM = Guard.InRange(value.Meters, 0, 500, "m", nameof(EyeHeight));
    }

    /// <summary>Share of the Earth's curvature that terrestrial refraction takes back [−0.5 to 0.9]; 0.13 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public double RefractionFactor
    {
        get => _refraction;
        init => _refraction = Guard.InRange(value, -0.5, 0.9, "(share of 1)", nameof(RefractionFactor));
    }

    /// <summary>First step of the search [0.5 to 100 m]; about a sixth of the raster's cell; 5 m by default. Far away steps grow to 1 % of the distance.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public Length NearStep
    {
        get => Length.FromMeters(_nearStepM);
        init => _nearStepM = Guard.InRange(value.Meters, 0.5, 100, "m", nameof(NearStep));
    }

    internal double RangeM => _rangeM;

    internal double EyeM => _eyeM;

    internal double NearStepM => _nearStepM;
}
