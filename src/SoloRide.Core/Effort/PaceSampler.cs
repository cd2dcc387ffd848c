using System.Buffers;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// Samples of a ride. Each draws power, ride, surface, technique and step factors anew and chooses the mode of every step again;
/// conditions (weather, light, fatigue) stay those of the typical ride. A sample depends on seed and index alone.
/// </summary>
/// <remarks>
/// Immutable; any number of threads may sample at once. The same bits on every machine up to the platform's exponential and cube root.
/// </remarks>
public sealed class PaceSampler
{
    private readonly SampleTerms _steps;
    private readonly SpreadTerms _terms;
    private readonly double[] _root;
    private readonly int _seed;

    internal PaceSampler(RidePace pace, StepPhysics[] physics, int seed, SpreadTerms terms)
    {
        _steps = SampleTerms.Of(pace, physics);
        _seed = seed;
        _terms = terms;
        _root = terms.State.Root();
    }

    /// <summary>Number of steps.</summary>
    public int Steps => _steps.Count;

    /// <summary>One sample.</summary>
    /// <param name="index">Which sample, 0 or more.</param>
    /// <param name="movingS">Time in motion at the end of each step [s].</param>
    /// <param name="energyJ">Metabolic energy in motion at the end of each step [J]; empty: not wanted.</param>
    /// <returns>What was drawn for the whole ride.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The index is negative.</exception>
    /// <exception cref="ArgumentException">A span has another length than the steps.</exception>
    public PaceDraw Sample(int index, Span<double> movingS, Span<double> energyJ = default)
    {
        Guard.InRange(index, 0, int.MaxValue, "(number of the sample)");
        Guard.SameLength(Steps, movingS.Length, nameof(movingS));
        if (energyJ.Length > 0)
        {
            Guard.SameLength(Steps, energyJ.Length, nameof(energyJ));
        }

        return Run(index, movingS, energyJ, out _, out _);
    }

    /// <summary>Totals of consecutive samples; nothing is allocated for each sample.</summary>
    /// <param name="first">Number of the first sample, 0 or more.</param>
    /// <param name="movingS">Whole time in motion of each sample [s].</param>
    /// <param name="energyJ">Whole metabolic energy in motion of each sample [J].</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is negative.</exception>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public void Totals(int first, Span<double> movingS, Span<double> energyJ, CancellationToken cancel = default)
    {
        Guard.InRange(first, 0, int.MaxValue - movingS.Length, "(number of the sample)");
        Guard.SameLength(movingS.Length, energyJ.Length, nameof(energyJ));
        for (int i = 0; i < movingS.Length; i++)
        {
            cancel.ThrowIfCancellationRequested();
            Run(first + i, [], [], out movingS[i], out energyJ[i]);
        }
    }

    private PaceDraw Run(int index, Span<double> movingS, Span<double> energyJ, out double wholeS, out double wholeJ)
    {
        var random = new SampleRandom(_seed, index);
        double stop = 60 * _terms.StopPerMoving * Math.Exp(_terms.StopLogSd * random.Normal());
        Span<double> z = stackalloc double[TodayState.Size];
        for (int i = 0; i < z.Length; i++)
        {
            z[i] = random.Normal();
        }

        Span<double> factor = stackalloc double[TodayState.Size];
        for (int i = 0; i < factor.Length; i++)
        {
            // What the model itself has taken in of height and heat is not drawn again.
            double log = i == TodayState.Conditions ? 0 : _terms.State.Mean[i];
            for (int j = 0; j <= i; j++)
            {
                log += _root[(i * TodayState.Size) + j] * z[j];
            }

            factor[i] = i == TodayState.Conditions ? log : Math.Exp(log);
        }

        double ride = factor[TodayState.Ride], foot = factor[TodayState.Foot];
        double power = factor[TodayState.Power] * Math.Exp(_terms.ConditionsLogSd * factor[TodayState.Conditions]);
        Span<double> group = factor[TodayState.Groups..];
        int n = _steps.Padded;
        double[] scratch = ArrayPool<double>.Shared.Rent(2 * n);
        try
        {
            Span<double> time = scratch.AsSpan(0, n), energy = scratch.AsSpan(n, n);
            SampleKernel.Steps(_steps, power, foot, group, time, energy);
            (wholeS, wholeJ) = SampleKernel.Accumulate(_steps, ride, ref random, time, energy, movingS, energyJ);
        }
        finally
        {
            ArrayPool<double>.Shared.Return(scratch);
        }

        return new PaceDraw(power, ride, stop);
    }
}
