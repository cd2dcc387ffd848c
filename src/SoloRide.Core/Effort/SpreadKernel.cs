namespace SoloRide.Effort;

/// <summary>Log-normal spread: quantile factors.</summary>
internal static class SpreadKernel
{
    /// <summary>0.9 quantile of the standard normal.</summary>
    public const double Z90 = 1.2815515655446004;
}
