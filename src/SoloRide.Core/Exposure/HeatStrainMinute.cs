namespace SoloRide.Exposure;

/// <summary>The end of one minute, with the heat balance of that minute.</summary>
/// <param name="State">The body.</param>
/// <param name="LossGPerHour">Water leaving by sweat and breath at that moment [g/h].</param>
/// <param name="HeatMadeWPerM2">Metabolic rate less external work [W/m²].</param>
/// <param name="BreathWPerM2">Heat lost by breathing [W/m²].</param>
/// <param name="ConvectionWPerM2">Heat lost to the air [W/m²]; negative when the air heats.</param>
/// <param name="RadiationWPerM2">Heat lost by radiation [W/m²]; negative in the sun.</param>
/// <param name="EvaporationWPerM2">Heat lost by sweat that evaporates [W/m²].</param>
/// <param name="StorageWPerM2">Heat stored [W/m²].</param>
/// <param name="UnbalancedWPerM2">Cooling that the standard leaves out when no sweat is needed (zero or negative) [W/m²]; it is a model for heat, not for cold.</param>
public readonly record struct HeatStrainMinute(
    HeatStrainState State,
    double LossGPerHour,
    double HeatMadeWPerM2,
    double BreathWPerM2,
    double ConvectionWPerM2,
    double RadiationWPerM2,
    double EvaporationWPerM2,
    double StorageWPerM2,
    double UnbalancedWPerM2);
