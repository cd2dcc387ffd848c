using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Lamps: how fast one may ride in their light, how much light a speed needs, and which mode to use where.</summary>
/// <remarks>Static and pure; safe to call from any thread. The beam is taken as a point source; wet trail, fog and glare make it worse.</remarks>
[Entry]
public static class LampPlanner
{
    /// <summary>The speed at which stopping takes as long as the light shows.</summary>
    /// <param name="light">The lamp's mode.</param>
    /// <param name="grade">In the direction of travel, uphill positive.</param>
    /// <param name="surface">Under the tyre.</param>
    /// <param name="options">Light needed, reaction, braking.</param>
    /// <returns>See distance and speed; speed 0 where the bike cannot stop.</returns>
    /// <exception cref="ArgumentNullException">No light.</exception>
    public static LampSpeed TopSpeed(LampOutput light, Grade grade, TrailSurface surface = TrailSurface.Unknown, SightOptions? options = null)
    {
        Guard.NotNull(light);
        SightOptions o = options ?? new SightOptions();
        double see = LampKernel.SeeDistanceM(light.PeakCd, o.NeededLux);
        double a = LampKernel.DecelMps2(grade.RiseFraction, o.BrakingFactor ?? LampKernel.Braking(Guard.Defined(surface)));
        return new LampSpeed(Length.FromMeters(see), Speed.FromMetersPerSecond(LampKernel.MaxSpeedMps(see, o.ReactionS, a)), a > 0);
    }

    /// <summary>Peak intensity that lights the stopping distance of a speed.</summary>
    /// <param name="speed">0 to 40 m/s.</param>
    /// <param name="grade">In the direction of travel, uphill positive.</param>
    /// <param name="surface">Under the tyre.</param>
    /// <param name="options">Light needed, reaction, braking.</param>
    /// <returns>Peak intensity; null where the bike cannot stop on the slope, so that no light is enough.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The speed is outside its range.</exception>
    public static LuminousIntensity? PeakNeeded(Speed speed, Grade grade, TrailSurface surface = TrailSurface.Unknown, SightOptions? options = null)
    {
        double v = Guard.InRange(speed.MetersPerSecond, 0, 40, "m/s", nameof(speed));
        SightOptions o = options ?? new SightOptions();
        double a = LampKernel.DecelMps2(grade.RiseFraction, o.BrakingFactor ?? LampKernel.Braking(Guard.Defined(surface)));
        double stop = LampKernel.StopDistanceM(v, o.ReactionS, a);
        return double.IsFinite(stop) ? LuminousIntensity.FromCandela(LampKernel.CandelaNeeded(stop, o.NeededLux)) : null;
    }

    /// <summary>Which mode to use in which section: never below the light needed, and as bright as the energy allows.</summary>
    /// <param name="modes">The lamp's lit modes, each with its light; at most 20.</param>
    /// <param name="sections">The dark part of the ride in order, 1 to 200.</param>
    /// <param name="energy">Usable energy of the lamp, without the reserve that you keep; 0 or more.</param>
    /// <returns>The schedule; too little energy is a result with the amount that is missing.</returns>
    /// <exception cref="ArgumentException">No modes, a mode without light or power, no sections, or too many.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The energy is negative.</exception>
    public static LampSchedule Schedule(IReadOnlyList<DeviceMode> modes, IReadOnlyList<DarkSection> sections, Energy energy)
    {
        Guard.NotNull(modes);
        Guard.NotNull(sections);
        Guard.InRange(modes.Count, 1, 20, "modes", nameof(modes));
        Guard.InRange(sections.Count, 1, 200, "sections", nameof(sections));
        double energyWh = Guard.InRange(energy.WattHours, 0, 100_000, "Wh", nameof(energy));
        int count = modes.Count, n = sections.Count;
        double[] lumens = new double[count], watts = new double[count], hours = new double[n], weights = new double[n];
        bool[] allowed = new bool[n * count];
        for (int m = 0; m < count; m++)
        {
            LampOutput light = modes[m].Light ?? throw new ArgumentException($"Mode '{modes[m].Name}' states no light.", nameof(modes));
            lumens[m] = light.FluxLm;
            watts[m] = modes[m].TypicalW > 0 ? modes[m].TypicalW : throw new ArgumentException($"Mode '{modes[m].Name}' draws no power.", nameof(modes));
        }

        var least = new DeviceMode?[n];
        double leastWh = 0;
        for (int j = 0; j < n; j++)
        {
            hours[j] = sections[j].Duration.TotalHours;
            weights[j] = sections[j].WeightFactor;
            for (int m = 0; m < count; m++)
            {
                bool bright = lumens[m] >= sections[j].FluxLm && modes[m].Light!.PeakCd >= sections[j].PeakCd;
                allowed[(j * count) + m] = bright;
                if (bright && (least[j] is null || watts[m] < least[j]!.TypicalW))
                {
                    least[j] = modes[m];
                }
            }

            leastWh += least[j] is { } mode ? mode.TypicalW * hours[j] : double.PositiveInfinity;
        }

        int[] best = new int[n];
        LampScheduleKernel.Outcome got = LampScheduleKernel.Solve(lumens, watts, hours, allowed, weights, energyWh, best);
        Energy? leastEnergy = double.IsFinite(leastWh) ? Energy.FromWattHours(leastWh) : null;
        return got.Feasible
            ? new LampSchedule(true, [.. best.Select(m => modes[m])], Energy.FromWattHours(got.EnergyWh), least, leastEnergy, Energy.FromWattHours(0),
                Math.Max(0, (got.Bound - got.Worth) / Math.Max(1e-9, Math.Abs(got.Worth))))
            : new LampSchedule(false, [], Energy.FromWattHours(0), least, leastEnergy, leastEnergy is { } e ? Energy.FromWattHours(Math.Max(0, e.WattHours - energyWh)) : null, 0);
    }

    /// <summary>Checks a printed runtime against the energy of the pack: printed lumens are those after 30 s, printed runtime runs to a tenth of them.</summary>
    /// <param name="mode">A lit mode.</param>
    /// <param name="pack">The lamp's pack.</param>
    /// <returns>What the printed runtime is worth.</returns>
    /// <exception cref="ArgumentException">The mode states no light.</exception>
    public static RuntimeCheck CheckPrintedRuntime(DeviceMode mode, CellPack pack)
    {
        Guard.NotNull(mode);
        Guard.NotNull(pack);
        LampOutput light = mode.Light ?? throw new ArgumentException($"Mode '{mode.Name}' states no light.", nameof(mode));
        if (mode.TypicalW <= 0)
        {
            throw new ArgumentException($"Mode '{mode.Name}' draws no power.", nameof(mode));
        }

        double wh = pack.FullWh;
        TimeSpan longest = Sampled.Span(wh * BatteriesConstants.LampEfficacyCeilingLmPerW / light.FluxLm);
        Estimate<TimeSpan> expected = Estimate.Of(Sampled.Span(wh / mode.TypicalW), Sampled.Span(wh / mode.HighW), Sampled.Span(wh / Math.Max(mode.LowW, 1e-6)));
        RuntimeVerdict verdict = light.PrintedRuntime switch
        {
            null => RuntimeVerdict.NonePrinted,
            { } printed when printed > longest && light.Regulation == LampRegulation.Constant => RuntimeVerdict.Refused,
            { } printed when printed > expected.High => RuntimeVerdict.OnlyDimmer,
            _ => RuntimeVerdict.Plausible,
        };
        return new RuntimeCheck(expected, longest, verdict);
    }
}
