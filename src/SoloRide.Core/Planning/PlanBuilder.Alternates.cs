using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>Other ends of the ride, in case the planned one fails.</content>
internal sealed partial class PlanBuilder
{
    private PlanAlternates Alternates(Estimate<DateTimeOffset>[] arrivals, (DateTimeOffset? At, string Why)[] latest, WalkOutProfile? walk)
    {
        int finish = _course.Stations.Count - 1;
        string planned = _course.Stations[finish].Name;
        AlternateNeed need = AlternateExit.Check(arrivals[finish].Typical, Judged(arrivals[finish].Typical), planned.Length > 0 ? planned : "finish");
        if (need.Required)
        {
            _findings.AddRange(need.Findings);
        }

        var ends = new List<AlternateEnd>();
        for (int i = 1; i < finish; i++)
        {
            if (_course.Stations[i].Kind == StationKind.Exit)
            {
                ends.Add(new AlternateEnd(_course.Stations[i].Name, Length.FromMeters(_course.Stations[i].AlongM), arrivals[i], latest[i].At));
            }
        }

        return new PlanAlternates(need.Required, need.Reason, ends, walk is null ? null : IfBarred(walk));
    }

    /// <summary>Each way out is taken away in turn; the loss that makes the longest walk, or leaves none, is told.</summary>
    private BarredWayOut? IfBarred(WalkOutProfile walk)
    {
        BarredWayOut? worst = null;
        string[] names = [.. walk.Graph.Exits.Select(e => PlaceName(e.Name)).Distinct()];
        foreach (string barred in names)
        {
            string[] left = [.. walk.Graph.Exits.Where(e => PlaceName(e.Name) != barred).Select(e => e.Name)];
            WalkOutPoint? point = left.Length == 0 ? null : WorstFrom(walk.Graph.WalkOut(walk.Pace, left));
            BarredWayOut loss = point is { Time: { } time, Exit: { } exit }
                ? new BarredWayOut(barred, Length.FromMeters(Math.Max(0, point.AlongRoute.Meters - _offsetM)), time, PlaceName(exit))
                : new BarredWayOut(barred, null, null, null);
            if (worst is null || (worst.WalkOut is { } w && (loss.WalkOut is not { } l || l.Typical > w.Typical)))
            {
                worst = loss;
            }
        }

        return worst;
    }

    /// <summary>The forecast by quarters of an hour about the time of finish: good, not good, not known.</summary>
    private List<ForecastJudgement> Judged(DateTimeOffset arrival)
    {
        GeoPoint place = PlaceOf(_course.Stations.Count - 1);
        var judged = new List<ForecastJudgement>();
        TimeSpan step = TimeSpan.FromMinutes(15);
        for (DateTimeOffset t = arrival.AddHours(-EscapeConstants.AlternateHours); t < arrival.AddHours(EscapeConstants.AlternateHours); t += step)
        {
            bool covered = _model.Weather.HasForecast && _model.Weather.Covers(t, t + step);
            int hour = Math.Clamp((int)Math.Round((t - _request.Start).TotalHours), 0, _model.Sweat.Columns - 1);
            bool bad = covered && (_model.Weather.Known(t, place).ThunderPct >= ThunderLikelyPct || _model.Sweat.Category[hour] >= HeatCategory.Four);
            judged.Add(new ForecastJudgement(t, t + step, !covered ? Known.Unknown : bad ? Known.No : Known.Yes));
        }

        return judged;
    }
}
