using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>When to hang a device on the bank.</summary>
/// <param name="Device">Device.</param>
/// <param name="From">From the start of the ride.</param>
/// <param name="To">Until.</param>
/// <param name="IntoCell">Energy that reaches its cell.</param>
/// <param name="Deadline">When the device would be flat without it (typical values); null when it would last.</param>
public sealed record TopUp(string Device, TimeSpan From, TimeSpan To, Energy IntoCell, TimeSpan? Deadline);
