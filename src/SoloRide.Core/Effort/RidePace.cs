using System.Collections.Immutable;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>A chain of steps passed in order: times, energy, ledger, and the way to samples.</summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record RidePace
{
    private readonly StepPhysics[] _physics;
    private readonly SpreadTerms _terms;

    internal RidePace(
        ImmutableArray<StepPace> steps, StepPhysics[] physics, Estimate<TimeSpan> moving, Estimate<TimeSpan> stopped, Estimate<TimeSpan> elapsed,
        Estimate<Energy> energy, double assistJ, WorkLedger ledger, ImmutableArray<Finding> findings, SpreadSums sums, SpreadTerms terms)
    {
        Steps = steps;
        _physics = physics;
        Moving = moving;
        Stopped = stopped;
        Elapsed = elapsed;
        MetabolicEnergy = energy;
        AssistEnergy = Energy.FromJoules(assistJ);
        Ledger = ledger;
        Findings = findings;
        Sums = sums;
        _terms = terms;
    }

    /// <summary>The steps in order.</summary>
    public IReadOnlyList<StepPace> Steps { get; }

    /// <summary>Time in motion.</summary>
    public Estimate<TimeSpan> Moving { get; }

    /// <summary>Time standing still.</summary>
    public Estimate<TimeSpan> Stopped { get; }

    /// <summary>Both together.</summary>
    public Estimate<TimeSpan> Elapsed { get; }

    /// <summary>Energy that the body turns over, standing time included.</summary>
    public Estimate<Energy> MetabolicEnergy { get; }

    /// <summary>Energy that the motor gives at the wheel.</summary>
    public Energy AssistEnergy { get; }

    /// <summary>Where the work on the bike went.</summary>
    public WorkLedger Ledger { get; }

    /// <summary>What was assumed and where models leave their range.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    internal StepPhysics[] Physics => _physics;

    internal SpreadSums Sums { get; }

    /// <summary>Typical time in a mode.</summary>
    /// <param name="mode">The mode; a step ridden in part counts for its <see cref="StepPace.Mode"/>.</param>
    /// <returns>The sum over the steps.</returns>
    public TimeSpan TimeIn(TravelMode mode) => TimeSpan.FromSeconds(Steps.Where(s => s.Mode == mode).Sum(s => s.TimeS));

    /// <summary>Times and energy with their ranges, time in each mode, findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines(
            $"From start to end {Elapsed}: in motion {Moving}, standing {Stopped}. {string.Join(", ", Enum.GetValues<TravelMode>().Where(m => TimeIn(m) > TimeSpan.Zero).Select(m => $"{m} {Text.Span(TimeIn(m))}"))}. Energy {MetabolicEnergy}.",
            Findings,
            Cautions.Sentences);

    /// <summary>Samples of the ride: power, ride, group and step factors drawn anew, mode chosen anew on every step.</summary>
    /// <param name="seed">Any number; the same seed and index give the same sample on any thread.</param>
    /// <returns>The sampler.</returns>
    public PaceSampler Sampler(int seed)
        => new(this, _physics, seed, _terms);
}
