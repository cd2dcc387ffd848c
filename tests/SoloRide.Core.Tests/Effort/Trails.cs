namespace SoloRide.Tests.Effort;

/// <summary>Invented trails for tests.</summary>
internal static class Trails
{
    /// <summary>A loop whose first half climbs evenly and whose second half falls evenly, with waves on top.</summary>
    public static TrailStep[] Loop(double km, double ascentM, double stepM = 100, TrailSurface surface = TrailSurface.Firm, TrailDifficulty difficulty = TrailDifficulty.Level1, double baseM = 600)
    {
        int n = (int)Math.Round(km * 1000 / stepM);
        var steps = new TrailStep[n];
        double height = baseM;
        for (int i = 0; i < n; i++)
        {
            // Four climbs and descents; up and down take half of the way each.
            double phase = 8.0 * i / n;
            double rise = (((int)phase) % 2 == 0 ? 1 : -1) * ascentM / (n / 2.0);
            steps[i] = new TrailStep(stepM, rise, height + (rise / 2), 360.0 * i / n, surface, difficulty);
            height += rise;
        }

        return steps;
    }

    /// <summary>A mix of surfaces and difficulties.</summary>
    public static TrailStep[] Mixed(double km, double ascentM, double stepM = 100)
    {
        TrailStep[] steps = Loop(km, ascentM, stepM);
        for (int i = 0; i < steps.Length; i++)
        {
            TrailStep s = steps[i];
            (TrailSurface surface, TrailDifficulty difficulty) = (i / 20 % 5) switch
            {
                0 => (TrailSurface.Gravel, TrailDifficulty.Level0),
                1 => (TrailSurface.Firm, TrailDifficulty.Level1),
                2 => (TrailSurface.Loose, TrailDifficulty.Level1),
                3 => (TrailSurface.Firm, TrailDifficulty.Level2),
                _ => (TrailSurface.Unknown, TrailDifficulty.Unknown),
            };
            steps[i] = new TrailStep(s.LengthM, s.RiseM, s.ElevationM, s.BearingDeg, surface, difficulty);
        }

        return steps;
    }
}
