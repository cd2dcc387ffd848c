namespace SoloRide.Effort;

/// <summary>What one sample drew for the whole ride.</summary>
/// <param name="PowerFactor">Sustained power over its typical value.</param>
/// <param name="RideFactor">Moving time factor shared by the whole ride.</param>
/// <param name="StopMinutesPerHour">Minutes standing for each hour in motion.</param>
/// <remarks><c>default</c> is not a draw. Immutable.</remarks>
public readonly record struct PaceDraw(double PowerFactor, double RideFactor, double StopMinutesPerHour);
