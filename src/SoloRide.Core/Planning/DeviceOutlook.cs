using UnitsNet;

namespace SoloRide.Planning;

/// <summary>What is left in a device.</summary>
/// <param name="Name">The device.</param>
/// <param name="AtFinish">Charge left at the finish.</param>
/// <param name="LastsProbability">Chance that it lasts to the end [share of 1].</param>
/// <param name="NightOutProbability">Chance that it lasts through an unplanned night too [share of 1].</param>
/// <param name="Note">What to do about it; empty when nothing.</param>
public sealed record DeviceOutlook(string Name, Estimate<Ratio> AtFinish, double LastsProbability, double NightOutProbability, string Note);
