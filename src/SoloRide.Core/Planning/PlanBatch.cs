using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Many plans, many riders and routes: in parallel, in the order of the requests, one bad request harming no other, a bounded number in memory.</summary>
/// <remarks>
/// Requests are taken as results are read, so both may be streams without end. Results do not depend on the number of threads. Safe to call from several threads.
/// To spread plans over several machines, send <see cref="RideRequest.ToJson"/>: a plan is a pure function of that text.
/// </remarks>
[Entry(NoOutsideCheck = "runs the planner, which is checked")]
public static class PlanBatch
{
    private const int Ahead = 4;

    /// <summary>Plans each request and gives the results in their order.</summary>
    /// <typeparam name="T">What is kept of each plan.</typeparam>
    /// <param name="requests">The requests, read as needed.</param>
    /// <param name="keep">What to keep of a plan; the plan itself is let go. Called from several threads.</param>
    /// <param name="options">Parallel work; null for the defaults.</param>
    /// <param name="progress">Told after each plan, from the thread that made it, in no fixed order.</param>
    /// <param name="terrain">As in <see cref="RidePlanner.Plan"/>; must be safe to read from several threads.</param>
    /// <param name="cancel">Ends the work.</param>
    /// <returns>One result a request, made while it is read. Ending early ends the work.</returns>
    /// <exception cref="ArgumentNullException">No requests, or nothing to keep.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; thrown while results are read.</exception>
    public static IEnumerable<BatchedPlan<T>> Run<T>(
        IEnumerable<RideRequest> requests, Func<RidePlan, T> keep, PlanBatchOptions? options = null, IProgress<PlanBatchProgress>? progress = null, ITerrainHeights? terrain = null, CancellationToken cancel = default)
        => Stream(Guard.NotNull(requests), Guard.NotNull(keep), options ?? PlanBatchOptions.Default, progress, terrain, cancel);

    private static IEnumerable<BatchedPlan<T>> Stream<T>(
        IEnumerable<RideRequest> requests, Func<RidePlan, T> keep, PlanBatchOptions options, IProgress<PlanBatchProgress>? progress, ITerrainHeights? terrain, CancellationToken cancel)
    {
        int parallel = options.MaxParallel ?? Environment.ProcessorCount, ahead = options.MaxAhead ?? Ahead * parallel, done = 0, index = 0;
        TaskScheduler scheduler = new ConcurrentExclusiveSchedulerPair(TaskScheduler.Default, parallel).ConcurrentScheduler;
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        CancellationToken token = stop.Token;
        var open = new Queue<Task<BatchedPlan<T>>>();
        using IEnumerator<RideRequest> next = requests.GetEnumerator();
        try
        {
            bool more = true;
            while (true)
            {
                while (more && open.Count < ahead)
                {
                    cancel.ThrowIfCancellationRequested();
                    more = next.MoveNext();
                    if (more)
                    {
                        RideRequest request = next.Current;
                        int at = index++;
                        open.Enqueue(Task.Factory.StartNew(() => One(request, at), token, TaskCreationOptions.DenyChildAttach, scheduler));
                    }
                }

                if (open.Count == 0)
                {
                    yield break;
                }

                yield return open.Dequeue().GetAwaiter().GetResult();
            }
        }
        finally
        {
            stop.Cancel();
            foreach (Task<BatchedPlan<T>> task in open)
            {
                // Work still going is waited for, so that nothing of the caller's is used after the end.
                task.ContinueWith(static _ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default).GetAwaiter().GetResult();
            }
        }

        BatchedPlan<T> One(RideRequest request, int at)
        {
            BatchedPlan<T> result;
            string title = "";
            try
            {
                RidePlan plan = RidePlanner.Plan(request, terrain, token);
                title = plan.Title;
                result = new BatchedPlan<T>(at, title, keep(plan), null);
            }
            catch (ArgumentException e) when (title.Length == 0)
            {
                title = request is null ? "" : request.Title.Length > 0 ? request.Title : request.Route.Name;
                result = new BatchedPlan<T>(at, title, default, e);
            }

            progress?.Report(new PlanBatchProgress(Interlocked.Increment(ref done), at, title));
            return result;
        }
    }
}
