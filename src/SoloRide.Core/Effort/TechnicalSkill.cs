using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Own technical speed on one difficulty, against the caps in use.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TechnicalSkill
{
    /// <summary>Makes it.</summary>
    /// <param name="difficulty">The difficulty.</param>
    /// <param name="factor">[factor, 0.1 to 10] Own speed over the cap's.</param>
    /// <param name="gsdFactor">[factor, 1 to 3] What is still uncertain about it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public TechnicalSkill(TrailDifficulty difficulty, double factor, double gsdFactor)
    {
        Difficulty = Guard.Defined(difficulty);
        Factor = Guard.InRange(factor, 0.1, 10, "(factor)");
        GsdFactor = Guard.InRange(gsdFactor, 1, 3, "(factor)");
    }

    /// <summary>The difficulty.</summary>
    public TrailDifficulty Difficulty { get; }

    /// <summary>Own speed over the cap's [factor].</summary>
    public double Factor { get; }

    /// <summary>What is still uncertain, as a geometric standard deviation [factor].</summary>
    public double GsdFactor { get; }
}
