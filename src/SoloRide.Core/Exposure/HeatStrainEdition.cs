namespace SoloRide.Exposure;

/// <summary>Edition of the predicted heat strain standard.</summary>
public enum HeatStrainEdition
{
    /// <summary>ISO 7933:2004: its printed examples are met to the last digit. Metabolic rate 100 to 450 W/m2, so it covers more of riding.</summary>
    Iso7933Of2004,

    /// <summary>ISO 7933:2023 as a reading of public data: the examples are met to 0.06 C and 0.6 % of the loss. The standard's text was not seen; the reading is a hypothesis.</summary>
    Iso7933Of2023,
}
