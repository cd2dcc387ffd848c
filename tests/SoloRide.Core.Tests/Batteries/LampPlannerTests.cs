using FsCheck.Xunit;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Tests.Batteries;

public sealed class LampPlannerTests
{
    private static readonly LampOutput Bright = new(1000, 10_000);

    [Fact]
    [Checks(typeof(LampPlanner), CheckKind.BadInput)]
    public void LampPlanner_BadInput_SaysWhat()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new LampOutput(0, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SightOptions { NeededLux = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => LampPlanner.PeakNeeded(Speed.FromKilometersPerHour(-1), default));
        var e = Assert.Throws<ArgumentException>(() => LampPlanner.Schedule([DeviceMode.Of("dim", ModeUse.Lighting, 1, 1, 1)], [new DarkSection { Duration = TimeSpan.FromHours(1) }], Energy.FromWattHours(1)));
        Assert.Contains("dim", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => LampPlanner.Schedule([DeviceMode.Lit("a", Bright)], [], Energy.FromWattHours(1)));
    }

    /// <summary>
    /// Stopping from 30 km/h with 2.5 s and braking 0.25 (wet) and 0.16 gives 35.0 and 43.0 m, which bracket the 38.7 m of the cycling design guide
    /// (FHWA-HRT-04-103, table 23); 10 lx at 10 m, the German minimum for cycle lamps, are 1 000 cd.
    /// </summary>
    [Fact]
    [Checks(typeof(LampPlanner), CheckKind.Outside)]
    public void PeakNeeded_DesignGuide_BracketsItsStoppingDistance()
    {
        double Stop(double braking) => Math.Sqrt(LampPlanner.PeakNeeded(
            Speed.FromKilometersPerHour(30), default, TrailSurface.Paved, new SightOptions { ReactionS = 2.5, BrakingFactor = braking, NeededLux = 1 })!.Value.Candela);
        Assert.InRange(38.7, Stop(0.25), Stop(0.16));
        Assert.Equal(35.0, Stop(0.25), 0.05);
        Assert.Equal(43.0, Stop(0.16), 0.05);
        Assert.Equal(10, LampPlanner.TopSpeed(new LampOutput(100, 1000), default, TrailSurface.Paved, new SightOptions { NeededLux = 10 }).SeeDistance.Meters, 1e-9);
        Assert.Equal(200, Bright.BeamDistance.Meters, 1e-9);
    }

    [Property]
    [Checks(typeof(LampPlanner), CheckKind.Property)]
    public void TopSpeed_SteeperDownhillOrDimmer_NeverFaster(byte steep, byte dim)
    {
        double down = -steep / 400.0;
        Speed here = LampPlanner.TopSpeed(Bright, Grade.FromRise(down)).TopSpeed;
        Assert.True(LampPlanner.TopSpeed(Bright, Grade.FromRise(down - 0.02)).TopSpeed <= here);
        Assert.True(LampPlanner.TopSpeed(new LampOutput(1000, 10_000.0 / (1 + dim)), Grade.FromRise(down)).TopSpeed <= here);
        if (here.MetersPerSecond > 0)
        {
            // The light needed for the top speed is the light there is.
            Assert.Equal(10_000, LampPlanner.PeakNeeded(here, Grade.FromRise(down))!.Value.Candela, 1e-6 * 10_000);
        }
    }

    [Fact]
    public void TopSpeed_SlopeTooSteepForTheBrakes_IsZero()
    {
        LampSpeed speed = LampPlanner.TopSpeed(Bright, Grade.FromPercent(-60), TrailSurface.Mud);
        Assert.False(speed.CanStop);
        Assert.Equal(0, speed.TopSpeed.MetersPerSecond);
        Assert.Null(LampPlanner.PeakNeeded(Speed.FromKilometersPerHour(5), Grade.FromPercent(-60), TrailSurface.Mud));
    }

    [Property(MaxTest = 60)]
    public void Schedule_RandomNights_EqualsExhaustiveSearch(ushort seed)
    {
        var random = new Random(seed);
        int count = 2 + random.Next(3), n = 1 + random.Next(5);
        DeviceMode[] modes = [.. Enumerable.Range(0, count).Select(m => DeviceMode.Lit($"m{m}", new LampOutput(50 + (random.NextDouble() * 1500), 100 + (random.NextDouble() * 9000)), 0.5 + (12 * random.NextDouble())))];
        DarkSection[] sections = [.. Enumerable.Range(0, n).Select(_ => new DarkSection
        {
            Duration = TimeSpan.FromMinutes(10 + random.Next(120)),
            NeededFlux = LuminousFlux.FromLumens(random.Next(400)),
            NeededPeak = LuminousIntensity.FromCandela(random.Next(2000)),
            WeightFactor = 1 + random.Next(3),
        })];
        double energy = random.NextDouble() * 40;
        LampSchedule got = LampPlanner.Schedule(modes, sections, Energy.FromWattHours(energy));
        double best = double.NegativeInfinity;
        for (int code = 0; code < (int)Math.Pow(count, n); code++)
        {
            double worth = 0, wh = 0;
            bool bright = true;
            for (int j = 0, c = code; j < n; j++, c /= count)
            {
                DeviceMode m = modes[c % count];
                bright &= m.Light!.Flux >= sections[j].NeededFlux && m.Light.PeakIntensity >= sections[j].NeededPeak;
                wh += (double)m.Power.Typical.Watts * sections[j].Duration.TotalHours;
                worth += sections[j].Duration.TotalHours * sections[j].WeightFactor * Math.Log(m.Light.Flux.Lumens);
            }

            if (bright && wh <= energy + 1e-9)
            {
                best = Math.Max(best, worth);
            }
        }

        Assert.Equal(double.IsFinite(best), got.IsFeasible);
        if (got.IsFeasible)
        {
            Assert.True(got.IsOptimal);
            double worth = got.Modes.Select((m, j) => sections[j].Duration.TotalHours * sections[j].WeightFactor * Math.Log(m.Light!.Flux.Lumens)).Sum();
            Assert.Equal(best, worth, 1e-9 * Math.Max(1, Math.Abs(best)));
            Assert.True(got.Least!.Value.WattHours <= got.Uses.WattHours + 1e-9);
        }
    }

    [Fact]
    public void CheckPrintedRuntime_ConstantOutputBeyondThePack_IsRefused()
    {
        CellPack pack = CellPack.LithiumIon(3000, 3.6);
        DeviceMode Mode(double h, LampRegulation regulation) => DeviceMode.Lit("m", new LampOutput(1000, 8000) { PrintedRuntime = TimeSpan.FromHours(h), Regulation = regulation });
        Assert.Equal(RuntimeVerdict.Plausible, LampPlanner.CheckPrintedRuntime(Mode(1, LampRegulation.Constant), pack).Verdict);
        Assert.Equal(RuntimeVerdict.Refused, LampPlanner.CheckPrintedRuntime(Mode(4, LampRegulation.Constant), pack).Verdict);
        Assert.Equal(RuntimeVerdict.OnlyDimmer, LampPlanner.CheckPrintedRuntime(Mode(4, LampRegulation.StepsDown), pack).Verdict);
    }
}
