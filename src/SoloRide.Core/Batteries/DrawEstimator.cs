using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Learns the draw of a device's modes from its own charge gauge: better than any default.</summary>
/// <remarks>
/// Charge lost over time in each mode, times the energy of the pack. The range covers the gauge (2 % of full at both ends of each unbroken run of one
/// mode) and the pack's capacity. Log at the temperature of the rides: gauges read low in the cold. Static and pure; safe to call from any thread.
/// </remarks>
[Entry(NoOutsideCheck = "An identity: charge lost over time; no published log of a device was found.")]
public static class DrawEstimator
{
    /// <summary>Learns from a log.</summary>
    /// <param name="log">Readings in ascending time, at least two.</param>
    /// <param name="pack">Pack of the device.</param>
    /// <returns>One draw for each mode, by name; stretches in which the charge rose are left out with a finding.</returns>
    /// <exception cref="ArgumentException">Fewer than two readings, or times that do not ascend.</exception>
    public static IReadOnlyList<LearnedDraw> Learn(IReadOnlyList<GaugeReading> log, CellPack pack)
    {
        Guard.NotNull(log);
        Guard.NotNull(pack);
        if (log.Count < 2)
        {
            throw new ArgumentException($"The log holds {log.Count} readings; at least 2 are needed.", nameof(log));
        }

        for (int i = 1; i < log.Count; i++)
        {
            if (log[i].At <= log[i - 1].At)
            {
                throw new ArgumentException($"Reading {i + 1} at {Text.Span(log[i].At)} is not after reading {i} at {Text.Span(log[i - 1].At)}.", nameof(log));
            }
        }

        var learned = new List<LearnedDraw>();
        foreach (string mode in log.Skip(1).Select(r => r.Mode).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            double hours = 0, lost = 0;
            int runs = 0, rises = 0;
            bool running = false;
            for (int i = 1; i < log.Count; i++)
            {
                double drop = log[i - 1].ChargeFraction - log[i].ChargeFraction;
                bool counts = string.Equals(log[i].Mode, mode, StringComparison.Ordinal);
                if (counts && drop < -BatteriesConstants.GaugeSpread)
                {
                    rises++;
                    counts = false;
                }

                if (counts)
                {
                    hours += (log[i].At - log[i - 1].At).TotalHours;
                    lost += drop;
                    runs += running ? 0 : 1;
                }

                running = counts;
            }

            var findings = new List<Finding>();
            if (rises > 0)
            {
                findings.Add(new Finding(BatteriesFindingCodes.LogRises, FindingSeverity.Caution, mode, $"In {rises} stretches the charge rose: left out as charging."));
            }

            if (hours <= 0)
            {
                continue;
            }

            double typical = Math.Max(0, lost) * pack.FullWh / hours;
            double gauge = NormalKernel.Z90 * BatteriesConstants.GaugeSpread * Math.Sqrt(2.0 * runs) * pack.FullWh / hours;
            double half = Math.Sqrt((gauge * gauge) + (typical * pack.CapacitySpreadFraction * typical * pack.CapacitySpreadFraction));
            if (half > 0.3 * typical)
            {
                findings.Add(new Finding(BatteriesFindingCodes.LogShort, FindingSeverity.Caution, mode, "Too little charge was lost to tell the draw well: log for longer."));
            }

            learned.Add(new LearnedDraw(
                mode, Estimate.Of(Power.FromWatts(typical), Power.FromWatts(Math.Max(0, typical - half)), Power.FromWatts(typical + half)), Sampled.Span(hours), findings));
        }

        return learned;
    }
}
