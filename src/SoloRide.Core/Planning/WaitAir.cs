using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>The air of a wait: its coldest hour, its mean, and when heat can no longer be lost in the shade.</summary>
internal sealed record WaitAir
{
    /// <summary>Above it at its coldest a wait asks for shade, not for a barrier bag: the balance at rest asks for about 1.2 clo then, air layer and riding clothes.</summary>
    [Source("burton-edholm", "(33 - 25) / (0.155 x 0.76 x 58.2) = 1.2 clo with the air layer")]
    public const double NoBagAboveC = 25;

    [Source("assumption-critical-wet-bulb")]
    private const double CriticalWetBulbC = 30.6;

    /// <summary>Time from then until the body is about 1.4 K warmer, none of the heat of rest being lost.</summary>
    [Source("derived-rest-heat", "105 W x 1 h over 76 kg of 3.47 kJ/(kg K)")]
    private const double StoreHours = 1;

    private const double SeaLevelHpa = 1013;

    private WaitAir(double coldestC, double meanC, double hottestC, TimeSpan? heatLimit)
    {
        ColdestC = coldestC;
        MeanC = meanC;
        HottestC = hottestC;
        HeatLimit = heatLimit;
    }

    public double ColdestC { get; }

    public double MeanC { get; }

    public double HottestC { get; }

    public TimeSpan? HeatLimit { get; }

    /// <summary>Of the hours of a wait from its beginning.</summary>
    public static WaitAir Of(IReadOnlyList<Weather> hours)
    {
        TimeSpan? limit = null;
        for (int h = 0; h < hours.Count && limit is null; h++)
        {
            Weather w = hours[h];
            double air = Math.Clamp(w.AirTempC, -40, 60);
            limit = air > CriticalWetBulbC && WbgtKernel.PsychrometricWetC(air, Math.Clamp(w.RelHumidityPct, 1, 100) / 100, Math.Clamp(w.WindMps, 0.5, 30), SeaLevelHpa) >= CriticalWetBulbC
                ? TimeSpan.FromHours(h + StoreHours) : null;
        }

        return new WaitAir(hours.Min(h => h.AirTempC), hours.Average(h => h.AirTempC), hours.Max(h => h.AirTempC), limit);
    }

    /// <summary>Body water that a wait or a walk may take before it counts as not covered: what a rider may lose without the deficit that is published as a limit.</summary>
    public static Volume BodyWater(Rider rider) => Volume.FromLiters(HydrationLimits.DeficitFraction * RideModel.BodyKg(rider));
}
