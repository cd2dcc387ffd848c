using System.Collections.Concurrent;
using FsCheck.Xunit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

public sealed class PlanBatchTests
{
    private static IEnumerable<RideRequest> Requests(int n, int samples = 0)
        => Enumerable.Range(0, n).Select(i => Rides.Request(Rides.Line(3 + (i % 5)), samples) with { Exits = [], Title = $"ride {i}", Start = Rides.Start.AddMinutes(i) });

    [Property(MaxTest = 8)]
    [Checks(typeof(PlanBatch), CheckKind.Property)]
    public bool Run_AnyThreads_GivesTheSamePlansInOrder(byte threads, byte ahead)
    {
        string[] one = [.. Requests(12, 30).Select(r => RidePlanner.Plan(r).ToJson())];
        BatchedPlan<string>[] many = [.. PlanBatch.Run(Requests(12, 30), p => p.ToJson(), new PlanBatchOptions { MaxParallel = 1 + (threads % 6), MaxAhead = 1 + (ahead % 20) })];
        return many.Select(m => m.Kept).SequenceEqual(one) && many.Select(m => m.Index).SequenceEqual(Enumerable.Range(0, 12)) && many.All(m => m.Error is null);
    }

    [Fact]
    public void Run_OneBadRequest_HarmsNoOther()
    {
        RideRequest[] requests = [.. Requests(5)];
        requests[2] = requests[2] with { Exits = [new ExitPoint { Name = "Beyond", AlongRoute = Length.FromKilometers(99) }] };
        BatchedPlan<TimeSpan>[] all = [.. PlanBatch.Run(requests, p => p.Moving!.Typical, new PlanBatchOptions { MaxParallel = 2 })];
        Assert.Equal(5, all.Length);
        Assert.Contains("Beyond", all[2].Error!.Message, StringComparison.Ordinal);
        Assert.Equal("ride 2", all[2].Title);
        Assert.All(all.Where(a => a.Index != 2), a => Assert.Null(a.Error));
    }

    [Fact]
    public void Run_StreamWithoutEnd_TakesOnlyWhatIsNeeded()
    {
        int taken = 0;
        IEnumerable<RideRequest> Endless()
        {
            while (true)
            {
                taken++;
                yield return Rides.Request(Rides.Line(2), 0) with { Exits = [] };
            }
        }

        Assert.Equal(6, PlanBatch.Run(Endless(), p => p.Title, new PlanBatchOptions { MaxParallel = 2, MaxAhead = 3 }).Take(6).Count());
        Assert.InRange(taken, 6, 9);
    }

    [Fact]
    public void Run_Progress_TellsEachOnce()
    {
        var told = new ConcurrentBag<PlanBatchProgress>();
        _ = PlanBatch.Run(Requests(7), p => 0, new PlanBatchOptions { MaxParallel = 3 }, new Tell(told.Add)).Count();
        Assert.Equal(Enumerable.Range(0, 7), told.Select(t => t.Index).Order());
        Assert.Equal(Enumerable.Range(1, 7), told.Select(t => t.Done).Order());
    }

    [Fact]
    public void Run_Cancelled_Ends()
    {
        using var stop = new CancellationTokenSource();
        using IEnumerator<BatchedPlan<int>> results = PlanBatch.Run(Requests(100), p => 0, new PlanBatchOptions { MaxParallel = 2 }, cancel: stop.Token).GetEnumerator();
        Assert.True(results.MoveNext());
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() =>
        {
            while (results.MoveNext())
            {
            }
        });
    }

    [Fact]
    [Checks(typeof(PlanBatch), CheckKind.BadInput)]
    public void Run_BadInput_SaysWhat()
    {
        Assert.Throws<ArgumentNullException>(() => PlanBatch.Run<int>(null!, _ => 0));
        Assert.Throws<ArgumentNullException>(() => PlanBatch.Run<int>(Requests(1), null!));
        Assert.Contains("allowed are 1 to 1024", Assert.Throws<ArgumentOutOfRangeException>(() => new PlanBatchOptions { MaxParallel = 0 }).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new PlanBatchOptions { MaxAhead = 0 });
    }

    private sealed class Tell(Action<PlanBatchProgress> tell) : IProgress<PlanBatchProgress>
    {
        public void Report(PlanBatchProgress value) => tell(value);
    }
}
