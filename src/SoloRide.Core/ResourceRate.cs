using SoloRide.Internal;

namespace SoloRide;

/// <summary>How fast a resource is used in one way of moving.</summary>
/// <param name="Kind">What is used; it also fixes the unit: litres, hours of light, kilocalories, watt-hours, hours.</param>
/// <param name="Mode">How the rider moves meanwhile.</param>
/// <param name="AmountPerHour">[unit of the kind per hour, 0 or more] Use.</param>
public sealed record ResourceRate(ResourceKind Kind, TravelMode Mode, double AmountPerHour)
{
    /// <summary>Use per hour in the kind's unit.</summary>
    public double AmountPerHour { get; } = Guard.NotNegative(AmountPerHour, "per hour");
}
