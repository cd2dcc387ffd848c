namespace SoloRide.Effort;

/// <summary>How the log of one step's time moves with the log factors of <see cref="TodayState"/>.</summary>
/// <param name="Power">With the log of power; 0 or below.</param>
/// <param name="Conditions">With the scatter of height and heat; 0 or below.</param>
/// <param name="Foot">Share of the time on foot.</param>
/// <param name="Surface">Share of the time that the surface's factor stretches: not held by a speed cap.</param>
/// <param name="Technique">With the log of the technique's time factor; 0 to 1.</param>
/// <param name="SurfaceGroup">Spread group of the surface.</param>
/// <param name="TechniqueGroup">Spread group of the difficulty.</param>
internal readonly record struct StepSpread(double Power, double Conditions, double Foot, double Surface, double Technique, int SurfaceGroup, int TechniqueGroup)
{
    /// <summary>The six factors that act on a step, and how much.</summary>
    public void Fill(Span<int> factor, Span<double> weight)
    {
        factor[0] = TodayState.Ride;
        weight[0] = 1;
        factor[1] = TodayState.Power;
        weight[1] = Power;
        factor[2] = TodayState.Conditions;
        weight[2] = Conditions;
        factor[3] = TodayState.Foot;
        weight[3] = Foot;
        factor[4] = TodayState.Groups + SurfaceGroup;
        weight[4] = Surface;
        factor[5] = TodayState.Groups + TechniqueGroup;
        weight[5] = Technique;
    }

    public const int Factors = 6;
}
