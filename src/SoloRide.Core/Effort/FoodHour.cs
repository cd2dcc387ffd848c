using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Where energy stands at the end of an hour of the ride.</summary>
/// <param name="At">Time since the start.</param>
/// <param name="Needed">Energy turned over so far.</param>
/// <param name="Eaten">Energy eaten so far by the plan.</param>
/// <param name="CarbohydrateEaten">Carbohydrate eaten so far by the plan.</param>
/// <param name="StoresLeft">Carbohydrate left in the body's stores.</param>
public sealed record FoodHour(TimeSpan At, Energy Needed, Energy Eaten, Mass CarbohydrateEaten, Mass StoresLeft);
