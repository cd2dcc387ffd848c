using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One of several plans side by side.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Plan">The plan.</param>
public sealed record PlanAlternative(string Name, RidePlan Plan);

/// <summary>Plans side by side, drawn with common random numbers, so that differences are not noise.</summary>
/// <param name="Alternatives">In the order given.</param>
public sealed record PlanComparison(IReadOnlyList<PlanAlternative> Alternatives)
{
    /// <summary>The alternative with the best verdict, then the largest least margin.</summary>
    public PlanAlternative Best => Alternatives.OrderBy(a => a.Plan.Verdict.Kind).ThenByDescending(a => Least(a.Plan)).First();

    /// <summary>What differs between two alternatives, in words, one line a difference.</summary>
    /// <param name="first">Index of the first.</param>
    /// <param name="second">Index of the second.</param>
    /// <returns>Lines.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such alternative.</exception>
    public IReadOnlyList<string> Difference(int first, int second)
    {
        Internal.Guard.InRange(first, 0, Alternatives.Count - 1, "(index)");
        Internal.Guard.InRange(second, 0, Alternatives.Count - 1, "(index)");
        return PlanDifference.Between(Alternatives[first].Plan, Alternatives[second].Plan);
    }

    private static double Least(RidePlan plan) => plan.Margins.Count > 0 ? plan.Margins.Min(m => m.InHandFraction) : double.NegativeInfinity;
}
