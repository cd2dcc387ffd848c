using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Needs on a way out.</summary>
internal static class NeedsKernel
{
    [Source("walking-2-met", "slow walking on the level: two met")]
    public const double WalkingWPerM2 = 2 * WaitingKernel.RestWPerM2;

    /// <summary>The part of a span without daylight; overlapping periods count once.</summary>
    public static TimeSpan InTheDark(TimeSpan time, DateTimeOffset? leaves, IReadOnlyList<DarkPeriod> dark)
    {
        if (leaves is not { } from)
        {
            return time;
        }

        long sum = 0, upTo = from.UtcTicks;
        long end = from.UtcTicks + time.Ticks;
        foreach (DarkPeriod p in dark.OrderBy(p => p.From))
        {
            long a = Math.Max(p.From.UtcTicks, upTo), b = Math.Min(p.To.UtcTicks, end);
            if (b > a)
            {
                sum += b - a;
                upTo = b;
            }
        }

        return TimeSpan.FromTicks(sum);
    }

    public static WalkOutNeeds Of(Length along, double timeS, TravelMode mode, WayOutConditions c)
    {
        double? walking = null, standing = null;
        if (c.Air is { } air)
        {
            walking = Math.Max(0, WaitingKernel.InsulationClo(WalkingWPerM2, air.DegreesCelsius));
            standing = Math.Max(0, WaitingKernel.InsulationClo(WaitingKernel.RestWPerM2, air.DegreesCelsius));
        }

        if (!(timeS < TimeSpan.MaxValue.TotalSeconds / 2))
        {
            return new WalkOutNeeds(along, null, TimeSpan.Zero, [], walking, standing);
        }

        TimeSpan time = TimeSpan.FromSeconds(timeS);
        TimeSpan inTheDark = InTheDark(time, c.Leaves, c.Dark);
        ResourceAmount[] amounts =
        [
            .. c.Rates.Where(r => r.Mode == mode).Select(r => ResourceAmount.Of(r.Kind, r.AmountPerHour * (r.Kind == ResourceKind.Light ? inTheDark : time).TotalHours)),
        ];
        return new WalkOutNeeds(along, time, inTheDark, amounts, walking, standing);
    }
}
