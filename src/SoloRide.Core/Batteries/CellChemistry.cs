namespace SoloRide.Batteries;

/// <summary>What the cells of a pack are made of.</summary>
public enum CellChemistry
{
    /// <summary>Lithium-ion with nickel-rich cathode (NCA, NMC): phones, lamps, computers, banks. Anchored in measured cells.</summary>
    LithiumNickel,

    /// <summary>Lithium iron phosphate. Anchored in a measured cell at low drain only.</summary>
    LithiumIronPhosphate,

    /// <summary>Primary lithium (Li/FeS2), not rechargeable. No measured anchor.</summary>
    PrimaryLithium,

    /// <summary>Nickel-metal hydride. No measured anchor.</summary>
    NickelMetalHydride,

    /// <summary>Alkaline, not rechargeable. No measured anchor.</summary>
    Alkaline,
}
