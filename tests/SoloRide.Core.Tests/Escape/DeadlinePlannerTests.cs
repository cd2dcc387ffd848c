using FsCheck.Xunit;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

public sealed class DeadlinePlannerTests
{
    private static readonly DateTimeOffset Noon = new(2027, 6, 14, 12, 0, 0, TimeSpan.FromHours(-6));

    /// <summary>The backward pass of a network plan, counted by hand as textbooks do: latest = least of (close, next latest minus duration).</summary>
    [Fact]
    [Checks(typeof(DeadlinePlanner), CheckKind.Outside)]
    public void LatestPasses_AreTheBackwardPassOfANetworkPlan()
    {
        DeadlineLeg[] legs = [Leg(5, 60, 70), Leg(5, 30, 40), Leg(5, 90, 120)];
        Deadline[] deadlines =
        [
            new(DeadlineKind.Gate, "gate", Km(15), Km(15), Noon.AddHours(5)),
            new(DeadlineKind.Storm, "ridge", Km(5), Km(10), Noon.AddHours(1)),
        ];
        LatestPassPlan plan = DeadlinePlanner.LatestPasses(legs, deadlines);
        Assert.Equal([0, 5, 10, 15], plan.Stations.Select(s => s.AlongRoute.Kilometers));
        Assert.Equal([Noon.AddMinutes(60 - 110), Noon.AddMinutes(60 - 40), Noon.AddMinutes(60), Noon.AddHours(5)], plan.Stations.Select(s => s.At!.Value));
        Assert.Equal(["ridge", "ridge", "ridge", "gate"], plan.Stations.Select(s => s.Binding!));
        Assert.Equal(TimeSpan.FromHours(-6), plan.Start.At!.Value.Offset);
        LatestPassPlan typical = DeadlinePlanner.LatestPasses(legs, deadlines, options: new DeadlineOptions { Margin = LegMargin.FixedReserve, Reserve = TimeSpan.FromMinutes(15) });
        Assert.Equal(Noon.AddMinutes(60 - 15 - 90), typical.Start.At);
        Assert.Contains(DeadlinePlanner.LatestPasses(legs, deadlines, options: new DeadlineOptions { Reserve = TimeSpan.FromMinutes(15) }).Findings, f => f.Code == EscapeFindingCodes.MarginTwice);
    }

    [Fact]
    public void StartWindows_HeatOfTheDay_LeavesTwoSpans_OrNone()
    {
        // The canyon (km 10 to 15) must be empty from 10:00 to 16:00; the gate closes at 20:00.
        DeadlineLeg[] legs = [Leg(10, 100, 120), Leg(5, 50, 60), Leg(5, 30, 40)];
        var heat = new ClosedPeriod(DeadlineKind.Heat, "heat", Km(10), Km(15), Noon.AddHours(-2), Noon.AddHours(4));
        var gate = new Deadline(DeadlineKind.Gate, "gate", Km(20), Km(20), Noon.AddHours(8));
        StartWindows w = DeadlinePlanner.StartWindows(legs, [gate], Noon.AddHours(-8), Noon.AddHours(8), [heat]);
        Assert.Equal(2, w.Windows.Count);
        Assert.Equal((Noon.AddHours(-8), Noon.AddHours(-2).AddMinutes(-180)), (w.Windows[0].From, w.Windows[0].To));
        // Low ends: 100 - 20 % of spread is not assumed; the estimate's own low end of 80 minutes.
        Assert.Equal((Noon.AddHours(4).AddMinutes(-80), Noon.AddHours(8).AddMinutes(-220)), (w.Windows[1].From, w.Windows[1].To));
        Assert.Equal((null, "heat", "heat", "gate"), (w.Windows[0].Opener, w.Windows[0].Closer, w.Windows[1].Opener, w.Windows[1].Closer));
        Assert.True(w.Contains(Noon.AddHours(-6)));
        Assert.False(w.Contains(Noon));
        var early = new Deadline(DeadlineKind.Contact, "call", Km(20), Km(20), Noon.AddHours(-3));
        StartWindows none = DeadlinePlanner.StartWindows(legs, [early, new Deadline(DeadlineKind.Gate, "opens", Km(0), Km(0), null, Noon)], Noon.AddHours(-8), Noon.AddHours(8), [heat]);
        Assert.Empty(none.Windows);
        Assert.Contains(none.Findings, f => f.Code == EscapeFindingCodes.NoStart);
    }

    [Fact]
    public void TurnArounds_TwoClocks_TheEarlierBinds()
    {
        // Out 60 and back 120 minutes a leg; the shade comes to the inner half at 12:00, dusk at 15:00. Start 8:00.
        DeadlineLeg[] legs = [Both(5, 60, 120), Both(5, 60, 120), Both(5, 60, 120)];
        Deadline[] clocks = [new(DeadlineKind.Light, "dusk", Km(0), Km(15), Noon.AddHours(3)), new(DeadlineKind.Shade, "shade", Km(5), Km(15), Noon)];
        TurnAroundPlan plan = DeadlinePlanner.TurnArounds(legs, clocks, Noon.AddHours(-4));
        // Dusk: 8:00 + t = 15:00 - 2 t, 2 h 20 out, km 11.67. Shade: 9:00 at km 5; 9:00 + t = 12:00 - 2 t, one hour in, km 10.
        Assert.Equal(["dusk", "shade"], plan.Clocks.Select(c => c.Name));
        Assert.Equal(11.667, plan.Clocks[0].Farthest.Kilometers, 3);
        Assert.Equal(Noon.AddHours(-4).AddMinutes(140), plan.Clocks[0].At);
        Assert.Equal(10, plan.Clocks[1].Farthest.Kilometers, 6);
        Assert.Equal("shade", plan.Binding!.Name);
        Assert.Equal(Noon.AddHours(-2), plan.Binding.At);
        Assert.Equal([Noon.AddHours(3), Noon.AddHours(1), Noon.AddHours(-2), Noon.AddHours(-4)], plan.Stations.Select(s => s.At!.Value));
        Assert.Equal(["dusk", "dusk", "shade", "shade"], plan.Stations.Select(s => s.Binding!));
    }

    /// <summary>More reserve never moves a latest time later; a later closing time never moves one earlier; passing later is never allowed later up the route.</summary>
    [Property(MaxTest = 100)]
    [Checks(typeof(DeadlinePlanner), CheckKind.Property)]
    public void LatestPasses_Laws(int seed)
    {
        var random = new Random(seed);
        DeadlineLeg[] legs = [.. Enumerable.Range(0, random.Next(1, 8)).Select(_ => Leg(random.Next(1, 9), random.Next(5, 120), random.Next(120, 200)))];
        double km = legs.Sum(l => l.Length.Kilometers);
        Deadline[] deadlines =
        [
            .. Enumerable.Range(0, random.Next(1, 5)).Select(i =>
            {
                double a = random.NextDouble() * km, b = random.NextDouble() * km;
                return new Deadline(DeadlineKind.Other, "d" + i, Km(Math.Min(a, b)), Km(Math.Max(a, b)), Noon.AddMinutes(random.Next(-300, 300)));
            }),
        ];
        LatestPassPlan plan = DeadlinePlanner.LatestPasses(legs, deadlines);
        LatestPassPlan reserve = DeadlinePlanner.LatestPasses(legs, deadlines, options: new DeadlineOptions { Reserve = TimeSpan.FromMinutes(random.Next(1, 60)) });
        int k = random.Next(deadlines.Length);
        Deadline d = deadlines[k];
        LatestPassPlan later = DeadlinePlanner.LatestPasses(legs, [.. deadlines.Select((x, i) => i == k ? new Deadline(d.Kind, d.Name, d.From, d.To, d.Closes!.Value.AddMinutes(random.Next(1, 90))) : x)]);
        for (int i = 0; i < plan.Stations.Count; i++)
        {
            Assert.True(T(reserve, i) <= T(plan, i));
            Assert.True(T(later, i) >= T(plan, i));
            Assert.True(i == 0 || T(plan, i - 1) <= T(plan, i));
        }

        // A start is in the windows when it is not after the latest start.
        StartWindows w = DeadlinePlanner.StartWindows(legs, deadlines, Noon.AddDays(-2), Noon.AddDays(2));
        Assert.Equal(plan.Start.At, Assert.Single(w.Windows).To);

        static DateTimeOffset T(LatestPassPlan p, int i) => p.Stations[i].At ?? DateTimeOffset.MaxValue;
    }

    /// <summary>Brute force over starts on a grid agrees with the spans.</summary>
    [Property(MaxTest = 40)]
    public void StartWindows_AgreeWithTryingEveryStart(int seed)
    {
        var random = new Random(seed);
        DeadlineLeg[] legs = [.. Enumerable.Range(0, random.Next(1, 5)).Select(_ => Leg(random.Next(1, 9), random.Next(5, 60), random.Next(60, 90)))];
        double km = legs.Sum(l => l.Length.Kilometers);
        ClosedPeriod[] closed =
        [
            .. Enumerable.Range(0, random.Next(1, 4)).Select(i =>
            {
                double a = Math.Round(random.NextDouble() * km), b = Math.Min(km, a + random.Next(0, 9));
                DateTimeOffset t = Noon.AddMinutes(random.Next(-300, 300));
                return new ClosedPeriod(DeadlineKind.Heat, "c" + i, Km(a), Km(b), t, t.AddMinutes(random.Next(0, 200)));
            }),
        ];
        StartWindows w = DeadlinePlanner.StartWindows(legs, [], Noon.AddHours(-12), Noon.AddHours(12), closed);
        for (int minute = -720; minute <= 720; minute += 7)
        {
            DateTimeOffset start = Noon.AddMinutes(minute);
            bool ok = closed.All(c => start + Time(c.To.Kilometers, l => l.Time.High) <= c.Begins.AddTicks(2) || start + Time(c.From.Kilometers, l => l.Time.Low) >= c.Ends.AddTicks(-2));
            Assert.Equal(ok, w.Windows.Any(x => x.From.AddTicks(-2) <= start && start <= x.To.AddTicks(2)));
        }

        TimeSpan Time(double toKm, Func<DeadlineLeg, TimeSpan> pick)
        {
            double ticks = 0, at = 0;
            foreach (DeadlineLeg l in legs)
            {
                ticks += Math.Clamp((toKm - at) / l.Length.Kilometers, 0, 1) * pick(l).Ticks;
                at += l.Length.Kilometers;
            }

            return TimeSpan.FromTicks((long)ticks);
        }
    }

    [Fact]
    [Checks(typeof(DeadlinePlanner), CheckKind.BadInput)]
    public void BadInput_NamesTheItem()
    {
        DeadlineLeg[] legs = [Leg(5, 60, 70)];
        Assert.Contains("'ferry'", Assert.Throws<ArgumentException>(() => DeadlinePlanner.LatestPasses(legs, [new Deadline(DeadlineKind.Gate, "ferry", Km(1), Km(7), Noon)])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => DeadlinePlanner.LatestPasses([], []));
        Assert.Contains("legs[0]", Assert.Throws<ArgumentException>(() => DeadlinePlanner.TurnArounds(legs, [])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => DeadlinePlanner.StartWindows(legs, [], Noon, Noon.AddHours(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DeadlineLeg(Length.Zero, Estimate.Exact(TimeSpan.Zero)));
        Assert.Throws<ArgumentException>(() => new ClosedPeriod(DeadlineKind.Heat, "h", Km(1), Km(2), Noon, Noon.AddHours(-1)));
        Assert.Contains(DeadlinePlanner.LatestPasses(legs, []).Findings, f => f.Code == EscapeFindingCodes.NoClock);
        Assert.Null(DeadlinePlanner.LatestPasses(legs, []).Start.At);
    }

    private static DeadlineLeg Leg(double km, double typicalMin, double highMin)
        => new(Length.FromKilometers(km), Estimate.Of(TimeSpan.FromMinutes(typicalMin), TimeSpan.FromMinutes(typicalMin * 0.8), TimeSpan.FromMinutes(Math.Max(typicalMin, highMin))));

    private static DeadlineLeg Both(double km, double outMin, double backMin)
        => new(Length.FromKilometers(km), Estimate.Exact(TimeSpan.FromMinutes(outMin)), Estimate.Exact(TimeSpan.FromMinutes(backMin)));

    private static Length Km(double km) => Length.FromKilometers(km);
}
