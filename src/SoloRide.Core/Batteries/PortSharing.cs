namespace SoloRide.Batteries;

/// <summary>Whether devices must take turns at the bank.</summary>
public enum PortSharing
{
    /// <summary>One port: one device after another.</summary>
    OneAfterAnother,

    /// <summary>A port for each device.</summary>
    AllAtOnce,
}
