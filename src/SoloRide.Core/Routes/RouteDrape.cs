using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Takes heights from a terrain model.</summary>
internal static class RouteDrape
{
    /// <summary>Over this length the difference between recording and model is the recording's drift.</summary>
    [Source("assumption-routes-merge", "1 km")]
    private const double DriftScaleM = 1000;

    public static RideRoute Over(RideRoute route, ITerrainHeights terrain, DrapeMode mode, double? spacingM)
    {
        (RideRoute dense, double[] lat, double[] lon) = Densified(route, spacingM);
        int n = lat.Length;
        double[] model = new double[n];
        terrain.HeightsM(lat, lon, model);
        ReadOnlySpan<double> recorded = dense.ElevationM;
        double[] heights = new double[n];
        int missing = 0;
        double[]? drift = mode == DrapeMode.Merge && !recorded.IsEmpty ? Drift(dense, recorded, model) : null;
        for (int i = 0; i < n; i++)
        {
            double r = recorded.IsEmpty ? double.NaN : recorded[i];
            heights[i] = mode switch
            {
                DrapeMode.Replace => model[i],
                DrapeMode.Merge when !double.IsNaN(r) => r + (drift is null ? 0 : drift[i]),
                _ => double.IsNaN(r) ? model[i] : r,
            };
            missing += double.IsNaN(heights[i]) ? 1 : 0;
        }

        IReadOnlyList<Finding> findings = missing == 0 ? dense.Findings :
        [
            .. dense.Findings,
            new Finding(RoutesFindingCodes.TerrainVoid, FindingSeverity.Caution, route.Name,
                string.Create(CultureInfo.InvariantCulture, $"The terrain model knows no height at {missing} of {n} points."),
                new FindingValue("missing", missing.ToString(CultureInfo.InvariantCulture))),
        ];
        bool modelOnly = mode == DrapeMode.Replace || !route.HasHeights;
        return dense.WithHeights(heights, findings, modelOnly ? HeightSource.TerrainModel : route.HeightSource);
    }

    private static double[] Drift(RideRoute route, ReadOnlySpan<double> recorded, double[] model)
    {
        double length = route.LengthM;
        double[] difference = new double[model.Length];
        bool any = false;
        for (int i = 0; i < difference.Length; i++)
        {
            difference[i] = model[i] - recorded[i];
            any |= !double.IsNaN(difference[i]);
        }

        double[] drift = new double[model.Length];
        if (!any)
        {
            return drift;
        }

        double[] cells = new double[ProfileKernel.CellCount(length)], smooth = new double[cells.Length];
        double step = length / cells.Length;
        ProfileKernel.CellMeans(route.CumM, difference, length, cells);
        ProfileKernel.Gaussian(cells, step > 0 ? DriftScaleM / step : 0, smooth);
        ReadOnlySpan<double> cum = route.CumM;
        for (int i = 0; i < drift.Length; i++)
        {
            drift[i] = ProfileKernel.At(smooth, step, cum[i]);
        }

        return drift;
    }

    private static (RideRoute Route, double[] Lat, double[] Lon) Densified(RideRoute route, double? spacingM)
    {
        ReadOnlySpan<double> cum = route.CumM;
        bool needed = false;
        for (int i = 1; i < cum.Length && spacingM is { } s; i++)
        {
            needed |= cum[i] - cum[i - 1] > s;
        }

        if (needed)
        {
            route = route.Densified(spacingM!.Value);
        }

        return (route, route.LatDeg.ToArray(), route.LonDeg.ToArray());
    }
}
