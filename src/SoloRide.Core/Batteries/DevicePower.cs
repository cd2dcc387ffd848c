using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>How long one device lasts.</summary>
/// <remarks>Probabilities are counts of random draws over capacity, draw, charge gauge and air temperature; a lasting charge is a probability, never a promise.</remarks>
public sealed record DevicePower
{
    /// <summary>Device.</summary>
    public required Device Device { get; init; }

    /// <summary>State of charge over time with the top-ups of the plan, typical values; kinks only where something changes.</summary>
    public required IReadOnlyList<ChargeAt> Charge { get; init; }

    /// <summary>
    /// First time it is wanted and has nothing, from the start of the ride, without the bank; null when even the typical case lasts longer than 30 days.
    /// After the last stretch its draw goes on. An upper end of 30 days means 30 days or more.
    /// </summary>
    public required Estimate<TimeSpan>? Depletion { get; init; }

    /// <summary>The same with the top-ups of the plan.</summary>
    public required Estimate<TimeSpan>? DepletionWithBank { get; init; }

    /// <summary>Chance that it lasts to the end of the ride without the bank [share of 1].</summary>
    public required double LastsToEndProbability { get; init; }

    /// <summary>The same with the top-ups of the plan.</summary>
    public required double LastsToEndWithBankProbability { get; init; }

    /// <summary>Chance that it lasts through ride and unplanned night without the bank [share of 1].</summary>
    public required double LastsNightProbability { get; init; }

    /// <summary>The same with the top-ups of the plan.</summary>
    public required double LastsNightWithBankProbability { get; init; }

    /// <summary>Energy that it can use at the start, at the temperature and draw of the ride.</summary>
    public required Estimate<Energy> Usable { get; init; }

    /// <summary>Energy that ride and unplanned night ask for.</summary>
    public required Estimate<Energy> Needed { get; init; }

    /// <summary>Energy missing in the cell to reach the end of the unplanned night with the reserve, typical values; 0 when none.</summary>
    public required Energy Shortfall { get; init; }

    /// <summary>For lamps: the mode that gives the light needed with the least power; null for other devices and when no mode is bright enough.</summary>
    public DeviceMode? NeededMode { get; init; }

    /// <summary>For lamps: time that the usable energy at the start lasts in <see cref="NeededMode"/>.</summary>
    public Estimate<TimeSpan>? LampTime { get; init; }

    /// <summary>For lamps: the same with what is left at the end of the ride, typical values.</summary>
    public TimeSpan? LampTimeAtEnd { get; init; }

    /// <summary>Energy that can be used at the end of the ride, with the top-ups of the plan.</summary>
    public required Energy UsableAtEnd { get; init; }
}
