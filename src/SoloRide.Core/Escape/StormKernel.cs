using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Thunder by ear.</summary>
internal static class StormKernel
{
    [Source("sound-dry-air", "331.3 m/s at 0 C")]
    private const double SoundAt0CMps = 331.3;

    [Source("lightning-30-30", "published rule LT1: act at 30 s or less")]
    public const double ActSeconds = 30;

    [Source("lightning-30-30", "published rule LT2: 30 min after the last thunder")]
    public const double WaitMinutes = 30;

    [Source("lightning-safety-nps", "published rule LT4: thunder is heard to about 10 miles")]
    public const double HeardMiles = 10;

    [Source("lightning-safety-nps", "published rule LT4: a strike can reach about 10 miles; 10 km is taken as the danger distance")]
    [Source("assumption-lightning", "danger distance of the personal threshold")]
    public const double DangerM = 10_000;

    public const double MileM = 1609.344;

    /// <summary>[m/s] Speed of sound in dry air.</summary>
    [Source("sound-dry-air", "331.3 sqrt(1 + t/273.15)")]
    public static double SoundMps(double airC) => SoundAt0CMps * Math.Sqrt(1 + (airC / Si.ZeroCelsiusK));

    /// <summary>[s] Flash-to-bang time at which the shelter is just reached before the storm is within the danger distance.</summary>
    [Source("assumption-lightning", "published rule LT7: slow evacuations need a longer lead; (danger distance + storm speed x time to shelter) / sound")]
    public static double ThresholdS(double dangerM, double stormMps, double toShelterS, double soundMps) => (dangerM + (stormMps * toShelterS)) / soundMps;
}
