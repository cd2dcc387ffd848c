using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Charge of a device at a place, at the typical arrival and with the top-ups of the plan.</summary>
/// <param name="Name">The device.</param>
/// <param name="Left">Charge left.</param>
public sealed record DeviceCharge(string Name, Ratio Left);
