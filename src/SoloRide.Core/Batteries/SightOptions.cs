using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>What stopping within the light is worked out with.</summary>
/// <remarks>Lux values come from studies of pedestrians who look for obstacles, not of riders: take them as a floor. Immutable.</remarks>
public sealed record SightOptions
{
    /// <summary>Light that an obstacle needs [lx, 0.05 to 100]; 2 lx unless stated.</summary>
    [Source("uttley-fotios-2017", "detection flattens at 2.0 lx")]
    public double NeededLux { get; init => field = Guard.InRange(value, 0.05, 100, "lx", nameof(NeededLux)); } = 2;

    /// <summary>Time from seeing to braking [s, 0.2 to 5]; 1.5 s unless stated, design guides take 2.5 s.</summary>
    [Source("assumption-reaction", "1.5 s for an alert rider; the cycling design guide takes 2.5 s")]
    public double ReactionS { get; init => field = Guard.InRange(value, 0.2, 5, "s", nameof(ReactionS)); } = 1.5;

    /// <summary>Braking over weight on level ground [0.02 to 1]; null: by the surface.</summary>
    public double? BrakingFactor { get; init => field = value is { } v ? Guard.InRange(v, 0.02, 1, "(factor)", nameof(BrakingFactor)) : null; }
}
