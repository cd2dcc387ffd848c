using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>One way to come by the water of a ride.</summary>
/// <param name="Way">Which.</param>
/// <param name="Plan">Its carry plan.</param>
/// <param name="Method">The treatment it rests on; null for none.</param>
/// <param name="KitMass">Mass of filter, vessel and second method carried all the way.</param>
/// <param name="StartMass">Water at the start and kit.</param>
/// <param name="CarriedKgKm">Kilograms times kilometres of water, reserve and kit [kg km]; NaN when it does not work.</param>
/// <param name="TreatmentTime">Time to collect and treat at all stops of the plan; null when unknown or none.</param>
public sealed record WaterSupplyOption(
    WaterSupplyWay Way,
    WaterCarryPlan Plan,
    WaterTreatment? Method,
    Mass KitMass,
    Mass StartMass,
    double CarriedKgKm,
    Estimate<TimeSpan>? TreatmentTime)
{
    /// <summary>Whether it works within the limits.</summary>
    public bool Works => Plan.State == WaterCarryState.Planned;
}
