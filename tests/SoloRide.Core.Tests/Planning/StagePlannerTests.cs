using FsCheck;
using FsCheck.Xunit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

public sealed class StagePlannerTests
{
    private static TimeSpan Effort(Length a, Length b)
        => TimeSpan.FromMinutes((b.Kilometers - a.Kilometers) * (5 + (2 * Math.Sin(a.Kilometers + b.Kilometers))));

    private static Camp At(string name, double km, Known water = Known.Yes, Known allowed = Known.Yes)
        => new() { Name = name, AlongRoute = Length.FromKilometers(km), Water = water, Allowed = allowed };

    // Mathematical truth: exhaustive search over every choice of camps.
    [Property(MaxTest = 60)]
    [Checks(typeof(StagePlanner), CheckKind.Property)]
    public bool Split_LargestDay_EqualsExhaustiveSearch(byte seed, byte daysRaw)
    {
        var random = new System.Random(seed);
        int days = 2 + (daysRaw % 4);
        int n = days - 1 + random.Next(6);
        Camp[] camps = [.. Enumerable.Range(0, n).Select(i => At($"camp {i}", 1 + (random.NextDouble() * 98)))];
        StagePlan plan = StagePlanner.Split(Length.FromKilometers(100), days, camps, Effort);
        TimeSpan best = TimeSpan.MaxValue;
        for (int mask = 0; mask < 1 << n; mask++)
        {
            if (System.Numerics.BitOperations.PopCount((uint)mask) != days - 1)
            {
                continue;
            }

            double[] at = [0, .. Enumerable.Range(0, n).Where(i => (mask >> i & 1) == 1).Select(i => camps[i].AlongRoute.Kilometers).Order(), 100];
            TimeSpan worst = Enumerable.Range(0, days).Max(d => Effort(Length.FromKilometers(at[d]), Length.FromKilometers(at[d + 1])));
            best = worst < best ? worst : best;
        }

        return Math.Abs((plan.Largest - best).TotalSeconds) < 0.001 && plan.Stages.Count == days;
    }

    [Fact]
    [Checks(typeof(StagePlanner), CheckKind.BadInput)]
    public void Split_CampBeyondTheEnd_NamesIt()
    {
        ArgumentException e = Assert.Throws<ArgumentException>(() => StagePlanner.Split(Length.FromKilometers(50), 2, [At("Far Camp", 60)], Effort));
        Assert.Contains("Far Camp", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => StagePlanner.Split(Length.FromKilometers(50), 0, [], Effort));
        Assert.Throws<ArgumentOutOfRangeException>(() => StagePlanner.Split(Length.Zero, 1, [], Effort));
    }

    [Fact]
    public void Split_TooFewCamps_IsAResultWithAReason()
    {
        StagePlan plan = StagePlanner.Split(Length.FromKilometers(100), 3, [At("one", 40), At("dry", 60, Known.No), At("closed", 70, Known.Yes, Known.No)], Effort);
        Assert.Empty(plan.Stages);
        Assert.Contains(plan.Findings, f => f.Code == "planning.no-split");
        Assert.Equal(2, plan.Findings.Count(f => f.Code == "planning.camp-left-out"));
    }

    [Fact]
    public void Split_OneDay_IsTheWholeRoute()
        => Assert.Equal(Effort(Length.Zero, Length.FromKilometers(100)), StagePlanner.Split(Length.FromKilometers(100), 1, [], Effort).Largest);
}
