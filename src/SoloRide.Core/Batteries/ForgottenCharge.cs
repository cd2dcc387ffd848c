namespace SoloRide.Batteries;

/// <summary>What happens if one device was not charged the evening before; typical values, with the top-ups of the plan left out.</summary>
/// <param name="Device">Device.</param>
/// <param name="StartChargeFraction">State of charge assumed [share of 1].</param>
/// <param name="LastsToEnd">Whether it still lasts to the end of the ride.</param>
/// <param name="Depletion">When it is flat; null when it lasts longer than 30 days.</param>
public sealed record ForgottenCharge(string Device, double StartChargeFraction, bool LastsToEnd, TimeSpan? Depletion);
