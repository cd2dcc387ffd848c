using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>Something in the first-aid bag.</summary>
/// <remarks>Immutable. Medicines are the rider's own list: the library chooses none and gives no dose.</remarks>
public sealed record FirstAidItem
{
    /// <summary>Makes an item.</summary>
    /// <param name="name">Name.</param>
    /// <param name="use">What it is for.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public FirstAidItem(string name, FirstAidUse use)
    {
        Name = Guard.NotEmpty(name);
        Use = Guard.Defined(use);
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>What it is for.</summary>
    public FirstAidUse Use { get; }

    /// <summary>Last day of use.</summary>
    public DateOnly? ExpiresOn { get; init; }

    /// <summary>Whether it is a pain-killer that also damps inflammation; the published caution is then shown.</summary>
    public bool IsAntiInflammatory { get; init; }
}
