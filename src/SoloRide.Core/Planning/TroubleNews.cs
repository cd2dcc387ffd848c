using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Where and when trouble came, and what is left.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TroubleNews
{
    private readonly double _alongM;
    private readonly double _walkMps = double.NaN;
    private readonly double _waterL = double.NaN;

    /// <summary>What happened.</summary>
    public required TroubleKind Kind { get; init => field = Guard.Defined(value, nameof(Kind)); }

    /// <summary>Distance along the planned route.</summary>
    public required Length AlongRoute { get => Length.FromMeters(_alongM); init => _alongM = Guard.NotNegative(value.Meters, "m", nameof(AlongRoute)); }

    /// <summary>When.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Pace on foot as tried out on the spot [0.2 to 7 km/h]; null: the model's own for a sound or a hurt rider.</summary>
    public Speed? WalkingSpeed
    {
        get => double.IsNaN(_walkMps) ? null : Speed.FromMetersPerSecond(_walkMps);
        init => _walkMps = value is { } v ? Guard.InRange(v.KilometersPerHour, 0.2, 7, "km/h", nameof(WalkingSpeed)) / 3.6 : double.NaN;
    }

    /// <summary>Water in hand [0 to 60 L]; null: whether it suffices is not judged.</summary>
    public Volume? WaterInHand
    {
        get => Si.Volume(_waterL);
        init => _waterL = value is { } v ? Guard.InRange(v.Liters, 0, 60, "L", nameof(WaterInHand)) : double.NaN;
    }
}
