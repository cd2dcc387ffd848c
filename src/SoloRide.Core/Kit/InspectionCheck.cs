namespace SoloRide.Kit;

/// <summary>One line of an inspection.</summary>
/// <param name="Id">Stable id, such as <c>brakes.pads</c>, that a service record names.</param>
/// <param name="System">Part of the bike.</param>
/// <param name="Text">What to look at.</param>
/// <param name="Form">The shortest form that holds it.</param>
/// <param name="VoidsPlan">Whether a fault found here voids the plan until it is mended.</param>
public sealed record InspectionCheck(string Id, BikeSystem System, string Text, InspectionForm Form, bool VoidsPlan);
