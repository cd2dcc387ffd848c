using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>Something that may be carried.</summary>
/// <remarks>Immutable. Two spares of the same sort are two items with names of their own.</remarks>
public sealed record KitItem
{
    private readonly double _massKg;
    private readonly double _volumeL;
    private readonly double _waterL;

    /// <summary>Makes an item.</summary>
    /// <param name="name">Name as it goes on the packing list.</param>
    /// <param name="mass">Mass; above 0, at most 30 kg.</param>
    /// <param name="volume">Room that it takes in a bag; above 0, at most 60 L.</param>
    /// <param name="place">Where it rides.</param>
    /// <param name="functions">What it can do.</param>
    /// <exception cref="ArgumentException">The name is empty, or a function is unknown.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Mass or volume is missing or out of range; the message names the item.</exception>
    public KitItem(string name, Mass mass, Volume volume, KitPlace place, params IReadOnlyList<KitFunction> functions)
    {
        Name = Guard.NotEmpty(name);
        double kg = mass.Kilograms, litres = volume.Liters;
        _massKg = kg > 0 && kg <= 30
            ? kg
            : throw new ArgumentOutOfRangeException(nameof(mass), kg, $"Item '{name}' has a mass of {Text.F(kg, 3)} kg; above 0 to 30 kg are allowed.");
        _volumeL = litres > 0 && litres <= 60
            ? litres
            : throw new ArgumentOutOfRangeException(nameof(volume), litres, $"Item '{name}' has a volume of {Text.F(litres, 3)} L; above 0 to 60 L are allowed.");
        Place = Guard.Defined(place);
        Functions = [.. Guard.NotNull(functions).Select(f => Guard.Defined(f, nameof(functions))).Distinct()];
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Mass.</summary>
    public Mass Mass => Mass.FromKilograms(_massKg);

    /// <summary>Room that it takes.</summary>
    public Volume Volume => Volume.FromLiters(_volumeL);

    /// <summary>Where it rides.</summary>
    public KitPlace Place { get; init => field = Guard.Defined(value, nameof(Place)); }

    /// <summary>What it can do.</summary>
    public IReadOnlyList<KitFunction> Functions { get; }

    /// <summary>Repairs that it is good for where a repair uses it up, such as the patches in a box; 1 to 100.</summary>
    public int Uses { get; init => field = Guard.InRange(value, 1, 100, "uses", nameof(Uses)); } = 1;

    /// <summary>Water that it holds; 0 to 20 L.</summary>
    public Volume WaterCapacity
    {
        get => Volume.FromLiters(_waterL);
        init => _waterL = Guard.InRange(value.Liters, 0, 20, "L", nameof(WaterCapacity));
    }

    /// <summary>Whether it has a mount of its own, such as a bottle cage, and takes no room in a bag.</summary>
    public bool HasOwnMount { get; init; }

    /// <summary>Whether it burns: stove, lighter, flare. Left out where fire is banned or the ban is not known.</summary>
    public bool HasFlame { get; init; }

    /// <summary>Whether the rider takes it in any case.</summary>
    public bool MustGo { get; init; }

    /// <summary>Last day of use; null when it does not expire.</summary>
    public DateOnly? ExpiresOn { get; init; }

    /// <summary>What bike it is made for; null when it fits any.</summary>
    public PartFit? MadeFor { get; init; }

    internal double MassKg => _massKg;

    internal double VolumeL => _volumeL;

    internal double WaterL => _waterL;

    /// <summary>Same name, sizes, place, functions and marks.</summary>
    /// <param name="other">The other item.</param>
    /// <returns>Whether they are equal.</returns>
    public bool Equals(KitItem? other)
        => other is not null && Name == other.Name && _massKg.Equals(other._massKg) && _volumeL.Equals(other._volumeL) && _waterL.Equals(other._waterL)
            && Place == other.Place && Uses == other.Uses && HasOwnMount == other.HasOwnMount && HasFlame == other.HasFlame && MustGo == other.MustGo
            && ExpiresOn == other.ExpiresOn && Equals(MadeFor, other.MadeFor) && Functions.SequenceEqual(other.Functions);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, _massKg, _volumeL, Place);
}
