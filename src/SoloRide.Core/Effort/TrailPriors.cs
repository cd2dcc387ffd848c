using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Priors by surface and difficulty. Mostly assumptions, as docs/modules/effort.md says line by line.</summary>
internal static class TrailPriors
{
    public const int Surfaces = 11;

    public const int Difficulties = 8;

    [Source("assumption-bike-priors", "drag area of an upright rider with a pack [m2]")]
    public const double DragAreaM2 = 0.50;

    // By TrailSurface: Unknown, Paved, Gravel, Firm, Grass, Loose, Rock, Roots, Sand, Mud, Snow.
    [Source("maier-virtual-elevation", "0.021 on a cross-country course")]
    [Source("assumption-rolling", "all other surfaces")]
    private static readonly double[] RollingTable = [0.024, 0.010, 0.014, 0.020, 0.030, 0.045, 0.030, 0.028, 0.100, 0.060, 0.100];

    [Source("herzog-2020", "energy factors; rock, roots and loose stones are between-values of ours")]
    private static readonly double[] EnergyTable = [1.1, 1.0, 1.1, 1.1, 1.1, 1.3, 1.5, 1.2, 2.1, 1.8, 1.6];

    [Source("herzog-2020", "time factors relative to a trail; snow is ours")]
    private static readonly double[] FootTimeTable = [1.0, 1.0, 1.0, 1.0, 1.03, 1.24, 1.67, 1.1, 1.19, 1.79, 1.6];

    // By mtb:scale 0 to 6.
    [Source("assumption-technical-caps", "speeds, ridden share and spread by difficulty")]
    private static readonly TechnicalCap[] Caps =
    [
        Make(22, 30, 1.00, 0.25), Make(17, 22, 0.95, 0.28), Make(12, 14, 0.75, 0.32), Make(8, 8, 0.35, 0.38),
        Make(5, 5, 0.10, 0.45), Make(3.5, 3.5, 0, 0.50), Make(3, 3, 0, 0.50),
    ];

    [Source("assumption-technical-caps", "difficulty not stated: between 0 and 1")]
    private static readonly TechnicalCap UnknownCap = Make(19, 24, 0.97, 0.28);

    [Source("assumption-technical-caps", "paved and graded roads without a difficulty")]
    private static readonly TechnicalCap RoadCap = Make(30, 40, 1.00, 0.20);

    // On foot by difficulty: pushing a bicycle over steps and boulders.
    [Source("assumption-foot-pace", "pushing by difficulty, unknown first")]
    private static readonly double[] PushByDifficulty = [1, 1, 1, 0.95, 0.9, 0.8, 0.6, 0.45];

    public static double Rolling(TrailSurface surface) => RollingTable[(int)surface];

    public static double Energy(TrailSurface surface) => EnergyTable[(int)surface];

    public static double FootTime(TrailSurface surface) => FootTimeTable[(int)surface];

    public static double Push(TrailDifficulty difficulty) => PushByDifficulty[(int)difficulty + 1];

    public static TechnicalCap Cap(TrailDifficulty difficulty) => difficulty == TrailDifficulty.Unknown ? UnknownCap : Caps[(int)difficulty];

    /// <summary>A road without a stated difficulty has its own cap.</summary>
    public static bool IsRoad(TrailSurface surface, TrailDifficulty difficulty)
        => difficulty == TrailDifficulty.Unknown && surface is (TrailSurface.Paved or TrailSurface.Gravel);

    /// <summary>Ground on which a lamp helps a walker less than on a path.</summary>
    public static bool IsRough(TrailSurface surface)
        => surface is TrailSurface.Loose or TrailSurface.Rock or TrailSurface.Roots or TrailSurface.Sand or TrailSurface.Mud or TrailSurface.Snow;

    public static TechnicalCap Road => RoadCap;

    private static TechnicalCap Make(double levelKmh, double downKmh, double ridden, double logSd)
        => new(Speed.FromKilometersPerHour(levelKmh), Speed.FromKilometersPerHour(downKmh), ridden, Math.Exp(logSd));
}
