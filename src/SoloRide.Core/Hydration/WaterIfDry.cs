using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>What if this source is dry.</summary>
/// <param name="InHand">Water then in hand in the worst case the plan allows, reserve included.</param>
/// <param name="NextName">The place that water reaches; empty when it reaches none.</param>
/// <param name="NextAlong">Where that is; null when it reaches none.</param>
/// <param name="BackName">The last place before, where water was taken in that case.</param>
/// <param name="NeedBack">Water to get back there at the planned rate of use.</param>
/// <param name="TurnBackBefore">Past this point along the route the water in hand no longer suffices to get back there; null when it always does, or when going on is covered.</param>
/// <param name="Text">The same in words.</param>
public sealed record WaterIfDry(
    Volume InHand,
    string NextName,
    Length? NextAlong,
    string BackName,
    Volume NeedBack,
    Length? TurnBackBefore,
    string Text);
