using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Messages that may need several attempts.</summary>
internal static class RetryKernel
{
    /// <summary>Share of messages that are through after at most <paramref name="attempts"/> attempts.</summary>
    [Source("geometric-distribution")]
    public static double Within(double p, double attempts) => p >= 1 ? 1 : 1 - Math.Pow(1 - p, attempts);

    /// <summary>Mean number of attempts when one gives up after <paramref name="attempts"/>.</summary>
    [Source("geometric-distribution", "capped expectation (1-(1-p)^N)/p")]
    public static double ExpectedCapped(double p, double attempts) => p >= 1 ? 1 : Within(p, attempts) / p;

    /// <summary>Attempts after which 95 of 100 messages are through.</summary>
    [Source("geometric-distribution", "ceil(ln 0.05 / ln(1-p))")]
    public static double For95(double p) => p >= 1 ? 1 : Math.Max(1, Math.Ceiling((Math.Log(0.05) / Math.Log(1 - p)) - 1e-9));

    /// <summary>Energy of attempts; a wait for the receipt follows each of them, the last included [mWh].</summary>
    public static double EnergyMwh(double attempts, double attemptW, double attemptS, double waitW, double waitS)
        => attempts * ((attemptW * attemptS) + (waitW * waitS)) / 3.6;

    /// <summary>Time of attempts; the wait after the last does not count [s].</summary>
    public static double TimeS(double attempts, double attemptS, double waitS) => (attempts * attemptS) + ((attempts - 1) * waitS);

    public static double AttemptProbability(SkyView sky) => sky switch
    {
        SkyView.Open => BatteriesConstants.OpenSkyProbability,
        SkyView.LightCanopy => BatteriesConstants.LightCanopyProbability,
        _ => BatteriesConstants.DenseCanopyProbability,
    };
}
