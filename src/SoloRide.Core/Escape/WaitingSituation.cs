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

    /// <summary>How long until heat can no longer be borne in the shade, from a model of exposure; null when air and humidity let the body lose its heat.</summary>
    public TimeSpan? HeatLimit { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(HeatLimit)) : null; }

    /// <summary>Body water that the wait may take when the water in hand is drunk; zero or more, null for none.</summary>
    public Volume? BodyWater { get; init => field = value is { } v ? Volume.FromLiters(Guard.NotNegative(v.Liters, "L", nameof(BodyWater))) : null; }

    /// <summary>Mean air temperature in the shade while waiting; null: <see cref="Air"/>.</summary>
    public Temperature? MeanAir { get; init; }

    /// <summary>
    /// Water needed at rest in a day; null: by <see cref="MeanAir"/>. Up to about 20 °C that is 3 US quarts, the upper end of a published range, and
    /// 5 at 30 °C; above that each kelvin adds 0.41 L, the heat that comes in through light clothing.
    /// </summary>
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
