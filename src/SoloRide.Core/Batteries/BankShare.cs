using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>What one device gets from the bank.</summary>
/// <param name="Name">Device.</param>
/// <param name="IntoCell">Energy into its cell.</param>
/// <param name="FromPort">Energy taken at the bank's port.</param>
/// <param name="PluggedIn">Time on the port.</param>
/// <param name="Unmet">What it wanted and does not get.</param>
public sealed record BankShare(string Name, Energy IntoCell, Energy FromPort, TimeSpan PluggedIn, Energy Unmet);
