using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A stretch that rises (or falls) without a reversal as large as the threshold it was found with.</summary>
/// <remarks>Immutable.</remarks>
public sealed record Climb
{
    internal Climb(double fromM, double toM, double gainM, double steepestFraction, double steepestOverM)
        => (FromM, ToM, GainM, SteepestFraction, SteepestOverM) = (fromM, toM, gainM, steepestFraction, steepestOverM);

    /// <summary>Where it begins, from the start of the route.</summary>
    public Length From => Length.FromMeters(FromM);

    /// <summary>Where it ends.</summary>
    public Length To => Length.FromMeters(ToM);

    /// <summary>How long it is.</summary>
    public Length Distance => Length.FromMeters(ToM - FromM);

    /// <summary>Height between its ends; negative for a descent.</summary>
    public Length Gain => Length.FromMeters(GainM);

    /// <summary>Gain over length.</summary>
    public Grade MeanGrade => Grade.FromRise(ToM > FromM ? GainM / (ToM - FromM) : 0);

    /// <summary>Steepest grade in the direction of the climb that holds over <see cref="SteepestOver"/>.</summary>
    public Grade SteepestGrade => Grade.FromRise(SteepestFraction);

    /// <summary>The length over which the steepest grade holds: the one asked for, or the whole climb when it is shorter.</summary>
    public Length SteepestOver => Length.FromMeters(SteepestOverM);

    internal double FromM { get; }

    internal double ToM { get; }

    internal double GainM { get; }

    internal double SteepestFraction { get; }

    internal double SteepestOverM { get; }
}
