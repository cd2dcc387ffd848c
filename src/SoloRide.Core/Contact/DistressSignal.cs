namespace SoloRide.Contact;

/// <summary>A signal that is understood without a common language.</summary>
/// <param name="Kind">How it is given.</param>
/// <param name="Name">Name.</param>
/// <param name="Meaning">What it says.</param>
/// <param name="Pattern">How often, how large; empty where nothing is prescribed.</param>
public sealed record DistressSignal(SignalKind Kind, string Name, string Meaning, string Pattern);
