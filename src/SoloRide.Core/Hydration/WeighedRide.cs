using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>A ride before and after which the rider stood on the scales.</summary>
/// <remarks>Weigh in dry clothing or none, on the same scales. Immutable.</remarks>
public sealed record WeighedRide
{
    private readonly double _beforeKg;
    private readonly double _afterKg;
    private readonly double _drunkL;
    private readonly double _urineL;
    private readonly double _eatenKg;

    /// <summary>Makes a weighed ride.</summary>
    /// <param name="massBefore">Before the ride; 25 to 250 kg.</param>
    /// <param name="massAfter">After the ride; 25 to 250 kg.</param>
    /// <param name="drunk">Drunk meanwhile; 0 to 30 L.</param>
    /// <param name="duration">From scales to scales; 15 min to 24 h.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public WeighedRide(Mass massBefore, Mass massAfter, Volume drunk, TimeSpan duration)
    {
        _beforeKg = Guard.InRange(massBefore.Kilograms, 25, 250, "kg", nameof(massBefore));
        _afterKg = Guard.InRange(massAfter.Kilograms, 25, 250, "kg", nameof(massAfter));
        _drunkL = Guard.InRange(drunk.Liters, 0, 30, "L", nameof(drunk));
        Guard.InRange(duration.TotalMinutes, 15, 1440, "min", nameof(duration));
        Duration = duration;
    }

    /// <summary>Body mass before.</summary>
    public Mass MassBefore => Mass.FromKilograms(_beforeKg);

    /// <summary>Body mass after.</summary>
    public Mass MassAfter => Mass.FromKilograms(_afterKg);

    /// <summary>Drunk meanwhile.</summary>
    public Volume Drunk => Volume.FromLiters(_drunkL);

    /// <summary>From scales to scales.</summary>
    public TimeSpan Duration { get; }

    /// <summary>Urine meanwhile; 0 to 10 L, none unless stated.</summary>
    public Volume Urine
    {
        get => Volume.FromLiters(_urineL);
        init => _urineL = Guard.InRange(value.Liters, 0, 10, "L", nameof(Urine));
    }

    /// <summary>Eaten meanwhile; 0 to 5 kg, nothing unless stated.</summary>
    public Mass Eaten
    {
        get => Mass.FromKilograms(_eatenKg);
        init => _eatenKg = Guard.InRange(value.Kilograms, 0, 5, "kg", nameof(Eaten));
    }

    /// <summary>The ride's conditions; with them the rider's level against the models is learnt, and carries over to other weather.</summary>
    public SweatConditions? Conditions { get; init; }

    /// <summary>Mean sweat rate: (mass before − after + drunk + eaten − urine) / time, 1 kg as 1 L.</summary>
    [Source("nata-2017", "sweat rate from body mass change")]
    public VolumeFlow SweatRate => VolumeFlow.FromLitersPerHour((_beforeKg - _afterKg + _drunkL + _eatenKg - _urineL) / Duration.TotalHours);
}
