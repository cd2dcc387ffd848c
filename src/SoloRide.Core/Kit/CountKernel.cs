using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>Numbers of events on one ride: Poisson, and its over-dispersed form with an uncertain rate.</summary>
internal static class CountKernel
{
    /// <summary>Probabilities of 0, 1, 2 … events; the rest of the mass lies beyond the span.</summary>
    [Source("textbook-poisson", "probability function")]
    public static void Poisson(double mean, Span<double> probabilities)
    {
        double p = Math.Exp(-mean);
        for (int n = 0; n < probabilities.Length; n++)
        {
            probabilities[n] = p;
            p *= mean / (n + 1);
        }
    }

    /// <summary>Gamma-Poisson (negative binomial) with the given mean and shape; an infinite shape is Poisson.</summary>
    [Source("textbook-gamma-poisson", "predictive distribution")]
    public static void GammaPoisson(double mean, double shape, Span<double> probabilities)
    {
        if (double.IsPositiveInfinity(shape) || mean == 0)
        {
            Poisson(mean, probabilities);
            return;
        }

        // With shape a and rate b after exposure t: mean = a t / b, q = t / (b + t).
        double q = mean / (shape + mean);
        double p = Math.Exp(shape * Math.Log(shape / (shape + mean)));
        for (int n = 0; n < probabilities.Length; n++)
        {
            probabilities[n] = p;
            p *= q * (shape + n) / (n + 1);
        }
    }

    /// <summary>Chance of at most that many events.</summary>
    public static double AtMost(double mean, double shape, int events)
    {
        Span<double> p = events < 256 ? stackalloc double[events + 1] : new double[events + 1];
        GammaPoisson(mean, shape, p);
        double sum = 0;
        foreach (double x in p)
        {
            sum += x;
        }

        return Math.Min(1, sum);
    }

    /// <summary>Chance of at least one event at a rate per 1 000 h.</summary>
    [Source("textbook-poisson", "no event")]
    public static double AtLeastOne(double ratePer1000H, double hours) => -Expm1(-ratePer1000H * hours / 1000);

    private static double Expm1(double x) => Math.Abs(x) < 1e-5 ? x + (x * x / 2) : Math.Exp(x) - 1;
}
