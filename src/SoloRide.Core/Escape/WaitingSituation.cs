using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>What a rider has who cannot move: what waiting is limited by. What is not known is left null and limits nothing, with a finding.</summary>
/// <remarks>Immutable.</remarks>
public sealed record WaitingSituation
{
    /// <summary>How long the clothing and shelter carried keep from cooling, from a model of exposure.</summary>
    public TimeSpan? ColdLimit { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(ColdLimit)) : null; }

    /// <summary>Water in hand; zero or more.</summary>
    public Volume? Water { get; init => field = value is { } v ? Volume.FromLiters(Guard.NotNegative(v.Liters, "L", nameof(Water))) : null; }

    /// <summary>Water needed at rest in a day; null for 3 US quarts, the upper end of a published range for about 20 °C. Heat raises it much.</summary>
    public Volume? RestWaterPerDay { get; init => field = value is { } v ? Volume.FromLiters(Guard.Positive(v.Liters, "L", nameof(RestWaterPerDay))) : null; }

    /// <summary>Life of the distress beacon once triggered; null without a beacon. At least 24 h by its standard.</summary>
    public TimeSpan? BeaconLife { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(BeaconLife)) : null; }

    /// <summary>Charge left for calling, in the cold of the place; null when not known.</summary>
    public Energy? Charge { get; init => field = value is { } v ? Energy.FromWattHours(Guard.NotNegative(v.WattHours, "Wh", nameof(Charge))) : null; }

    /// <summary>Mean draw of the means of calling while waiting.</summary>
    public Power? ChargeDraw { get; init => field = value is { } v ? Power.FromWatts(Guard.Positive((double)v.Watts, "W", nameof(ChargeDraw))) : null; }

    /// <summary>A limit set by a medical condition, from a doctor.</summary>
    public TimeSpan? MedicalLimit { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(MedicalLimit)) : null; }

    /// <summary>Air temperature while waiting, at its lowest.</summary>
    public Temperature? Air { get; init; }
}
