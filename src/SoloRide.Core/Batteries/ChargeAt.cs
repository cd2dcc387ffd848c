namespace SoloRide.Batteries;

/// <summary>State of charge at an instant of the plan.</summary>
/// <param name="At">From the start of the ride.</param>
/// <param name="ChargeFraction">Stored energy over that of the full pack [share of 1], typical values.</param>
/// <param name="UsableFraction">Of that, what the cut-off and the cold let out at this moment [share of 1].</param>
public readonly record struct ChargeAt(TimeSpan At, double ChargeFraction, double UsableFraction);
