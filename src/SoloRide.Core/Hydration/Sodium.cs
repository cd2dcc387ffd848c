using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>An amount of sodium, as mass, as amount of substance or as the table salt that holds it.</summary>
/// <remarks>
/// 1 g of table salt holds 393.4 mg or 17.11 mmol of sodium. <c>default</c> is none. Immutable.
/// </remarks>
[Entry]
public readonly record struct Sodium : IComparable<Sodium>
{
    /// <summary>Molar masses [g/mol].</summary>
    [Source("iupac-atomic-weights", "Na 22.98977, Cl 35.453")]
    internal const double SodiumGPerMol = 22.98977, ChlorineGPerMol = 35.453;

    private readonly double _mmol;

    private Sodium(double mmol) => _mmol = mmol;

    /// <summary>Mass of the sodium alone.</summary>
    public Mass Mass => Mass.FromMilligrams(MmolToMg(_mmol));

    /// <summary>Mass of the table salt (sodium chloride) that holds it.</summary>
    public Mass Salt => Mass.FromGrams(MmolToSaltG(_mmol));

    /// <summary>Amount of substance.</summary>
    public AmountOfSubstance Amount => AmountOfSubstance.FromMillimoles(_mmol);

    internal double Mmol => _mmol;

    /// <summary>From the mass of the sodium, as labels of drinks and capsules state it.</summary>
    /// <param name="sodium">0 to 1 kg.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative, above 1 kg, or not a number.</exception>
    public static Sodium FromMass(Mass sodium)
        => new(MgToMmol(Guard.InRange(sodium.Milligrams, 0, 1e6, "mg", nameof(sodium))));

    /// <summary>From the mass of table salt, as labels of food state it.</summary>
    /// <param name="salt">0 to 1 kg.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative, above 1 kg, or not a number.</exception>
    public static Sodium FromSalt(Mass salt)
        => new(SaltGToMmol(Guard.InRange(salt.Grams, 0, 1000, "g", nameof(salt))));

    /// <summary>From the amount of substance.</summary>
    /// <param name="sodium">0 to 50 mol.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative, above 50 mol, or not a number.</exception>
    public static Sodium FromAmount(AmountOfSubstance sodium)
        => new(Guard.InRange(sodium.Millimoles, 0, 50_000, "mmol", nameof(sodium)));

    /// <summary>What a volume of drink holds.</summary>
    /// <param name="concentration">0 to 2 000 mmol/L.</param>
    /// <param name="volume">0 to 100 L.</param>
    /// <returns>The amount.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static Sodium In(Molarity concentration, Volume volume)
        => new(Guard.InRange(concentration.MillimolesPerLiter, 0, 2000, "mmol/L", nameof(concentration))
            * Guard.InRange(volume.Liters, 0, 100, "L", nameof(volume)));

    /// <summary>Adds.</summary>
    /// <param name="a">One amount.</param>
    /// <param name="b">Another amount.</param>
    /// <returns>Both together.</returns>
    public static Sodium operator +(Sodium a, Sodium b) => new(a._mmol + b._mmol);

    /// <summary>Adds.</summary>
    /// <param name="a">One amount.</param>
    /// <param name="b">Another amount.</param>
    /// <returns>Both together.</returns>
    public static Sodium Add(Sodium a, Sodium b) => a + b;

    /// <inheritdoc/>
    public int CompareTo(Sodium other) => _mmol.CompareTo(other._mmol);

    /// <summary>Less sodium.</summary>
    /// <param name="a">One amount.</param>
    /// <param name="b">Another amount.</param>
    /// <returns>Whether the first is less.</returns>
    public static bool operator <(Sodium a, Sodium b) => a._mmol < b._mmol;

    /// <summary>More sodium.</summary>
    /// <param name="a">One amount.</param>
    /// <param name="b">Another amount.</param>
    /// <returns>Whether the first is more.</returns>
    public static bool operator >(Sodium a, Sodium b) => a._mmol > b._mmol;

    /// <summary>Not more sodium.</summary>
    /// <param name="a">One amount.</param>
    /// <param name="b">Another amount.</param>
    /// <returns>Whether the first is not more.</returns>
    public static bool operator <=(Sodium a, Sodium b) => a._mmol <= b._mmol;

    /// <summary>Not less sodium.</summary>
    /// <param name="a">One amount.</param>
    /// <param name="b">Another amount.</param>
    /// <returns>Whether the first is not less.</returns>
    public static bool operator >=(Sodium a, Sodium b) => a._mmol >= b._mmol;

    /// <summary>Such as <c>825 mg sodium (2.1 g salt)</c>.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => $"{Text.F(MmolToMg(_mmol), 0)} mg sodium ({Text.F(MmolToSaltG(_mmol), 1)} g salt)";

    internal static double MmolToMg(double mmol) => mmol * SodiumGPerMol;

    internal static double MgToMmol(double mg) => mg / SodiumGPerMol;

    internal static double MmolToSaltG(double mmol) => mmol * (SodiumGPerMol + ChlorineGPerMol) / 1000;

    internal static double SaltGToMmol(double saltG) => saltG * 1000 / (SodiumGPerMol + ChlorineGPerMol);
}
