using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>What sun and moon are computed with; every default is named and sourced.</summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
public sealed record DaylightOptions
{
    private readonly double _ut1MinusUtcS;
    private readonly double _deltaTS = double.NaN;
    private readonly double _riseSetAltitudeDeg = SunEventsKernel.RiseSetAltitudeDeg;
    private readonly double _heightAboveHorizonM;

    /// <summary>The defaults: UT1 equal to UTC, ΔT by year, sea-level horizon, rise and set at −50′.</summary>
    public static DaylightOptions Default { get; } = new();

    /// <summary>UT1 minus UTC [within 1 s]; 0 by default, which costs at most 0.9 s of every event.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Beyond 1 s.</exception>
    public TimeSpan Ut1MinusUtc
    {
        get => TimeSpan.FromSeconds(_ut1MinusUtcS);
        init => _ut1MinusUtcS = Guard.InRange(value.TotalSeconds, -1, 1, "s", nameof(Ut1MinusUtc));
    }

    /// <summary>Terrestrial time minus UT1 [−200 s to 400 s]; null takes 69.184 s from 2017 on and the Espenak–Meeus polynomials before.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public TimeSpan? DeltaT
    {
        get => double.IsNaN(_deltaTS) ? null : TimeSpan.FromSeconds(_deltaTS);
        init => _deltaTS = value is { } v ? Guard.InRange(v.TotalSeconds, -200, 400, "s", nameof(DeltaT)) : double.NaN;
    }

    /// <summary>Altitude of the Sun's centre at rise and set [°, −3 to 1], before any dip; −50′ (16′ of radius, 34′ of refraction) by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public double RiseSetAltitudeDeg
    {
        get => _riseSetAltitudeDeg;
        init => _riseSetAltitudeDeg = Guard.InRange(value, -3, 1, "deg", nameof(RiseSetAltitudeDeg));
    }

    /// <summary>
    /// Height of the eye above the plain or sea that forms the horizon [0 to 9000 m]; 0 by default. The geometric dip acos(R/(R+h))
    /// brings sunrise forward and sunset back; twilight is not moved.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public Length HeightAboveHorizon
    {
        get => Length.FromMeters(_heightAboveHorizonM);
        init => _heightAboveHorizonM = Guard.InRange(value.Meters, 0, 9000, "m", nameof(HeightAboveHorizon));
    }

    internal double Ut1MinusUtcS => _ut1MinusUtcS;

    // One value for each sixteen-day segment, so that single calls and shared polynomials agree; it moves by less than 0.05 s (0.002 arcsec) between two.
    internal double DeltaTSAt(double utcDays)
        => double.IsNaN(_deltaTS) ? TimeScaleKernel.DeltaTS(Math.Floor(utcDays / SunSegment.Days) * SunSegment.Days) : _deltaTS;

    /// <summary>The altitude actually used for rise and set, with the dip [rad].</summary>
    internal double RiseSetRad => (_riseSetAltitudeDeg * (Math.PI / 180)) - RefractionKernel.DipRad(_heightAboveHorizonM);
}
