using System.Collections.Immutable;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>One call over many route files: in parallel, one bad file harming no other, only summaries kept.</summary>
/// <remarks>Results do not depend on the number of threads. Safe to call from several threads.</remarks>
[Entry(NoOutsideCheck = "joins reading and profile, which are checked each")]
public static class RouteBatch
{
    /// <summary>Reads the files and makes their profiles.</summary>
    /// <param name="paths">The files.</param>
    /// <param name="options">Reading, profile and parallel work; null for the defaults.</param>
    /// <param name="progress">Told after each file, from the thread that worked on it.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>One summary a file, in the order given; a file that cannot be read has its error in place of figures.</returns>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static ImmutableArray<RouteSummary> Summaries(IEnumerable<string> paths, BatchOptions? options = null, IProgress<BatchProgress>? progress = null, CancellationToken cancellation = default)
    {
        options ??= BatchOptions.Default;
        return Run(paths, (path, route, error) =>
        {
            if (route is null)
            {
                return new RouteSummary(path, "", null, null, null, [], error);
            }

            ElevationProfile profile = ElevationProfile.Of(route, options.Elevation);
            return new RouteSummary(path, route.Name, route.Length, profile.HasHeights ? profile.Ascent : null, profile.HasHeights ? profile.Descent : null, [.. route.Findings, .. profile.Findings], null);
        }, options, progress, cancellation);
    }

    /// <summary>Reads the files and does the caller's work on each route; the route itself is let go afterwards.</summary>
    /// <typeparam name="T">What the work gives.</typeparam>
    /// <param name="paths">The files.</param>
    /// <param name="work">Called with the path and either the route or the error; must be safe to call from several threads.</param>
    /// <param name="options">Reading and parallel work; null for the defaults.</param>
    /// <param name="progress">Told after each file, from the thread that worked on it.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>One result a file, in the order given.</returns>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    /// <exception cref="AggregateException">The caller's work threw.</exception>
    public static ImmutableArray<T> Run<T>(IEnumerable<string> paths, Func<string, RideRoute?, InputFormatException?, T> work, BatchOptions? options = null, IProgress<BatchProgress>? progress = null, CancellationToken cancellation = default)
    {
        string[] files = [.. Guard.NotNull(paths)];
        Guard.NotNull(work);
        options ??= BatchOptions.Default;
        foreach (string file in files)
        {
            Guard.NotEmpty(file, nameof(paths));
        }

        var results = new T[files.Length];
        int done = 0;
        Parallel.For(0, files.Length, new ParallelOptions { MaxDegreeOfParallelism = options.MaxParallel ?? Environment.ProcessorCount, CancellationToken = cancellation }, i =>
        {
            RideRoute.TryRead(files[i], out RideRoute? route, out InputFormatException? error, options.Reading);
            results[i] = work(files[i], route, error);
            progress?.Report(new BatchProgress(Interlocked.Increment(ref done), files.Length, files[i]));
        });
        return [.. results];
    }
}
