using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Clothing worn together: insulation by the sum rule, with wetness as an assumption.</summary>
/// <remarks>
/// Sum of effective garment values (Olesen 1985; good to about a tenth in whole outfits of indoor clothing, less for thick layers, where the standard's
/// area factor also reads too high above 2 clo). Immutable.
/// </remarks>
[Entry]
public sealed record Outfit
{
    /// <summary>Puts garments together.</summary>
    /// <param name="garments">The garments; none is a bare body.</param>
    /// <param name="wetness">How wet they are.</param>
    /// <param name="options">Assumptions; defaults when null.</param>
    /// <exception cref="ArgumentNullException">Garments are null.</exception>
    /// <exception cref="ArgumentException">A garment is null.</exception>
    public Outfit(IEnumerable<Garment> garments, Wetness wetness = Wetness.Dry, ClothingOptions? options = null)
    {
        Garments = [.. Guard.NotNull(garments)];
        if (Garments.Contains(null!))
        {
            throw new ArgumentException("A garment is null.", nameof(garments));
        }

        Wetness = Guard.Defined(wetness);
        Options = options ?? ClothingOptions.Default;
    }

    /// <summary>The garments.</summary>
    public IReadOnlyList<Garment> Garments { get; }

    /// <summary>How wet they are.</summary>
    public Wetness Wetness { get; }

    /// <summary>Assumptions.</summary>
    public ClothingOptions Options { get; }

    /// <summary>Sum of the dry values [clo].</summary>
    [Source("olesen-1985", "sum rule")]
    public double DryClo => Garments.Sum(g => g.InsulationClo);

    /// <summary>Basic insulation after wetness [clo]; wind and movement are counted where it is used.</summary>
    public double InsulationClo => DryClo * Options.Keeps(Wetness);

    /// <summary>Mass of the garments whose mass is known.</summary>
    public Mass KnownMass => Mass.FromKilograms(Garments.Sum(g => g.Mass?.Kilograms ?? 0));

    /// <summary>Air permeability of the tightest layer [L/(m² s)].</summary>
    public double OuterPermeabilityPerM2 => Garments.Select(g => g.AirPermeabilityPerM2).Where(p => p is not null).Min() ?? Options.OuterPermeabilityPerM2;

    /// <summary>The same outfit with more garments.</summary>
    /// <param name="more">What is put on.</param>
    /// <returns>A new outfit.</returns>
    public Outfit With(params Garment[] more) => new(Garments.Concat(Guard.NotNull(more)), Wetness, Options);

    /// <summary>Same garments, wetness and assumptions.</summary>
    /// <param name="other">The other outfit.</param>
    /// <returns>Whether they are equal.</returns>
    public bool Equals(Outfit? other) => other is not null && Wetness == other.Wetness && Options == other.Options && Garments.SequenceEqual(other.Garments);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Garments.Count, Wetness, Options);

    /// <summary>Names and insulation.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => $"{string.Join(", ", Garments.Select(g => g.Name))}: {Text.F(InsulationClo, 2)} clo ({Wetness})";
}
