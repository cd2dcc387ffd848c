namespace SoloRide.Effort;

/// <summary>What a food is taken along for.</summary>
public enum FoodUse
{
    /// <summary>To be eaten on the ride.</summary>
    Eat,

    /// <summary>The reserve that stays unopened: long-keeping, quick to eat, bringing sodium.</summary>
    Reserve,
}
