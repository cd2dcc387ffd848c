using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>
/// A rider's own pace, learned from timed legs: sustained power, technical speed by difficulty, stops and spread. Few rides are
/// shrunk towards the priors, many speak for themselves.
/// </summary>
/// <remarks>Give it to <see cref="PaceOptions.Calibration"/>. Plain data, so that it can be stored. Immutable.</remarks>
[Entry]
[Source("derived-map-calibration", "Gauss-Newton on log times, ride effect and leg noise")]
public sealed record PaceCalibration
{
    private readonly double _powerW;

    /// <summary>Power at the pedals that explains the rides; 10 to 1 000 W.</summary>
    public required Power SustainedPower
    {
        get => Power.FromWatts(_powerW);
        init => _powerW = Guard.InRange((double)value.Watts, 10, 1000, "W", nameof(SustainedPower));
    }

    /// <summary>What is still uncertain about the power [factor, 1 to 3].</summary>
    public required double PowerGsdFactor { get; init => field = Guard.InRange(value, 1, 3, "(factor)", nameof(PowerGsdFactor)); }

    /// <summary>Own technical speed, one for each difficulty seen.</summary>
    public IReadOnlyList<TechnicalSkill> Technique { get; init => field = [.. Guard.NotNull(value, nameof(Technique))]; } = [];

    /// <summary>Spread between rides [factor, 1 to 3].</summary>
    public required double RideGsdFactor { get; init => field = Guard.InRange(value, 1, 3, "(factor)", nameof(RideGsdFactor)); }

    /// <summary>Own scatter of surfaces and steps over the assumed one, on its logarithm [factor, 0.1 to 10].</summary>
    public double ScatterFactor { get; init => field = Guard.InRange(value, 0.1, 10, "(factor)", nameof(ScatterFactor)); } = 1;

    /// <summary>Minutes standing for each hour in motion [min/h]; null where no stop was recorded.</summary>
    public double? StopMinutesPerHour { get; init => field = value is { } v ? Guard.InRange(v, 0, 600, "min/h", nameof(StopMinutesPerHour)) : null; }

    /// <summary>Spread of the stops between rides [factor]; null where no stop was recorded.</summary>
    public double? StopGsdFactor { get; init => field = value is { } v ? Guard.InRange(v, 1, 10, "(factor)", nameof(StopGsdFactor)) : null; }

    /// <summary>Number of rides.</summary>
    public int Rides { get; init; }

    /// <summary>Number of legs.</summary>
    public int Legs { get; init; }

    /// <summary>Leave-one-ride-out: median over rides of the error of its moving time [share of 1]; null with a single ride.</summary>
    public double? HeldOutErrorFraction { get; init; }

    /// <summary>The same error of the model before calibration [share of 1].</summary>
    public double? PriorErrorFraction { get; init; }

    /// <summary>Learns from legs.</summary>
    /// <param name="model">The model of this rider with what was known before; its own calibration, if any, is the starting point.</param>
    /// <param name="legs">Legs of one or more rides, in order within a ride.</param>
    /// <param name="conditions">Conditions of a leg; null: mild still air by day, hours before counted within each ride.</param>
    /// <returns>The calibration.</returns>
    /// <exception cref="ArgumentNullException">No model or no legs.</exception>
    /// <exception cref="ArgumentException">The list of legs is empty.</exception>
    public static PaceCalibration From(PaceModel model, IReadOnlyList<TimedLeg> legs, Func<TimedLeg, StepConditions>? conditions = null)
    {
        Guard.NotNull(model);
        Guard.NotNull(legs);
        return legs.Count == 0
            ? throw new ArgumentException("Calibration needs at least one timed leg.", nameof(legs))
            : CalibrationFit.Run(model, legs, conditions);
    }

    internal double TechnicalFactor(TrailDifficulty difficulty) => Skill(difficulty)?.Factor ?? 1;

    internal double? TechnicalGsdFactor(TrailDifficulty difficulty) => Skill(difficulty)?.GsdFactor;

    private TechnicalSkill? Skill(TrailDifficulty difficulty)
    {
        foreach (TechnicalSkill s in Technique)
        {
            if (s.Difficulty == difficulty)
            {
                return s;
            }
        }

        return null;
    }
}
