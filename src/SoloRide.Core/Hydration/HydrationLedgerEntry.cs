using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>The ledger at the end of a step.</summary>
/// <param name="At">Time since the start.</param>
/// <param name="Intake">Drunk in the step: recorded, or planned.</param>
/// <param name="IsRecorded">Whether the intake was recorded.</param>
/// <param name="WaterLost">Lost since the start.</param>
/// <param name="WaterDrunk">Drunk since the start.</param>
/// <param name="WaterDeficit">Lost less drunk; negative is more drunk than lost.</param>
/// <param name="DeficitOfBodyMass">The deficit as a share of body mass.</param>
/// <param name="SodiumLost">Lost since the start.</param>
/// <param name="SodiumTaken">Drunk and eaten since the start.</param>
public sealed record HydrationLedgerEntry(
    TimeSpan At,
    Volume Intake,
    bool IsRecorded,
    Estimate<Volume> WaterLost,
    Volume WaterDrunk,
    Estimate<Volume> WaterDeficit,
    Estimate<Ratio> DeficitOfBodyMass,
    Estimate<Mass> SodiumLost,
    Sodium SodiumTaken);
