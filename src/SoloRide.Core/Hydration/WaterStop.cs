using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>A place of the carry plan: the start, a source or a cache.</summary>
/// <param name="Name">Name.</param>
/// <param name="Along">Distance along the route.</param>
/// <param name="WetProbability">Probability the plan counts with; 0 where nobody knows.</param>
/// <param name="IsFill">Whether the plan takes water here if there is any.</param>
/// <param name="FillTo">Water in hand to leave with, reserve included; if more is in hand already, nothing is taken.</param>
/// <param name="MostTaken">Most that is taken here.</param>
/// <param name="LastsTo">The place the water then lasts to.</param>
/// <param name="LeastInHandOnArrival">Water in hand on arrival in the worst case the plan allows, reserve included.</param>
/// <param name="NeedsTreatment">Whether what is taken here must be treated before drinking.</param>
/// <param name="TreatmentTime">Time to treat what is taken, typical and longest; null when nothing needs treating or the time is unknown.</param>
/// <param name="IfDry">What to do if it is dry; null for the start and for certain sources.</param>
public sealed record WaterStop(
    string Name,
    Length Along,
    double WetProbability,
    bool IsFill,
    Volume FillTo,
    Volume MostTaken,
    string LastsTo,
    Volume LeastInHandOnArrival,
    bool NeedsTreatment,
    Estimate<TimeSpan>? TreatmentTime,
    WaterIfDry? IfDry);
