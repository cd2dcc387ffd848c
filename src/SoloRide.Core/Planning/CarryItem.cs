using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A thing to carry and the decision it serves.</summary>
/// <param name="Name">What, with its amount.</param>
/// <param name="Mass">Mass; null when not known.</param>
/// <param name="Reason">Why, with the number that justifies it.</param>
public sealed record CarryItem(string Name, Mass? Mass, string Reason);
