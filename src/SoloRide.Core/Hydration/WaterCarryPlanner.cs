using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Plans where to fill and how much to carry between sources that may be dry.</summary>
/// <remarks>
/// Least expected litre-kilometres subject to a limit on the probability of running dry, exactly; with many doubtful sources the search
/// is cut after a stated effort and says how far from the best the plan can be at most. Each plan comes with the variant in which every
/// doubtful source is dry. A source with unknown probability is planned as dry. Targets are fixed in advance; water is never poured out.
/// Deterministic; thread-safe.
/// </remarks>
[Entry(NoOutsideCheck = "no published worked example of carrying water over unreliable sources was found; checked by brute force over all plans, by the classical rule for certain sources and by laws")]
public static class WaterCarryPlanner
{
    /// <summary>Plans the carrying of water.</summary>
    /// <param name="request">Demand, sources, capacity, limits.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <returns>A plan; when none keeps the limits its state is <see cref="WaterCarryState.Insufficient"/> and it says what is missing.</returns>
    /// <exception cref="ArgumentException">No demand, demand with gaps, or a reserve that leaves no room.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static WaterCarryPlan Plan(WaterCarryRequest request, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        var findings = new List<Finding>();
        var line = new DemandLine(request.Demand, request.DemandQuantileLevel);
        List<Place> places = Places(request, line, findings);
        if (request.ReserveL >= request.CapacityL)
        {
            throw new ArgumentException(
                $"Reserve is {Text.F(request.ReserveL, 2)} L and leaves no room in a capacity of {Text.F(request.CapacityL, 2)} L.", nameof(request));
        }

        WaterCarryPlan cautious = Solve(request, line, [.. places.Select(p => p with { Wet = p.Wet >= request.TrustedProbability ? 1 : 0 })], places, 0, null, [], cancel);
        return Solve(request, line, places, places, request.MaxRunDryProbability, cautious, findings, cancel);
    }

    private static List<Place> Places(WaterCarryRequest request, DemandLine line, List<Finding> findings)
    {
        var places = new List<Place> { new("Start", line.StartM, 1, double.PositiveInfinity, false, 0, 0) };
        foreach ((WaterSource source, double atM) in request.Sources
            .Select(s => (Source: Guard.NotNull(s, nameof(request.Sources)), AtM: Si.M(s.AlongRoute)))
            .OrderBy(s => double.IsNaN(s.AtM) ? double.PositiveInfinity : s.AtM))
        {
            if (double.IsNaN(atM) || atM < line.StartM || atM > line.EndM)
            {
                findings.Add(new Finding(HydrationFindingCodes.SourceNotPlaced, FindingSeverity.Caution, source.Name,
                    double.IsNaN(atM)
                        ? "Its distance along the route is unknown: it is planned as absent."
                        : $"At {Text.F(atM / 1000, 1)} km it lies outside the demand from {Text.F(line.StartM / 1000, 1)} to {Text.F(line.EndM / 1000, 1)} km: planned as absent."));
                continue;
            }

            if (source.WetProbability is null)
            {
                findings.Add(new Finding(HydrationFindingCodes.SourceUnknown, FindingSeverity.Caution, source.Name,
                    "Nobody knows whether it holds water: it is planned as dry."));
            }

            if (request.Date is { } day && source.LastReport is { } report)
            {
                int age = day.DayNumber - report.DayNumber;
                if (age > WaterCarryConstants.OldReportDays || age < 0)
                {
                    findings.Add(new Finding(HydrationFindingCodes.ReportOld, FindingSeverity.Caution, source.Name,
                        age < 0 ? "Its report is dated after the ride." : $"Its report is {age} days old; flow falls late in the season.",
                        new FindingValue("age_days", age.ToString(System.Globalization.CultureInfo.InvariantCulture))));
                }
            }

            var place = new Place(source.Name, atM, source.WetProbability ?? 0, source.Amount?.Liters ?? double.PositiveInfinity, source.NeedsTreatment, line.Before(atM),
                source.Place is { } at && !double.IsNaN(at.ElevationM) ? at.ElevationM : 0) { PassOf = source.PassOf };
            Place last = places[^1];
            if (places.Count > 1 && place.CumulativeL - last.CumulativeL < WaterCarryKernel.CapacityToleranceL)
            {
                // Two sources with nothing drunk between them count as one place: wet if either is.
                places[^1] = last with
                {
                    Name = last.Name + " / " + place.Name,
                    Wet = last.PassOf is not null && last.PassOf == place.PassOf ? Math.Max(last.Wet, place.Wet) : 1 - ((1 - last.Wet) * (1 - place.Wet)),
                    AmountL = Math.Max(last.AmountL, place.AmountL),
                    NeedsTreatment = last.NeedsTreatment || place.NeedsTreatment,
                    PassOf = last.PassOf == place.PassOf ? last.PassOf : null,
                };
                continue;
            }

            places.Add(place);
        }

        if (request.Treatment is { } treatment)
        {
            findings.AddRange(treatment.Limits());
        }
        else if (places.Any(p => p.NeedsTreatment))
        {
            findings.Add(new Finding(HydrationFindingCodes.TreatmentUnset, FindingSeverity.Caution, "Treatment",
                "Sources need treatment and no method is given: no time is counted."));
        }

        return places;
    }

    private static WaterCarryPlan Solve(
        WaterCarryRequest request, DemandLine line, IReadOnlyList<Place> places, IReadOnlyList<Place> asGiven, double alpha,
        WaterCarryPlan? cautious, List<Finding> findings, CancellationToken cancel)
    {
        int m = places.Count;
        double[] lengthKm = new double[m], needL = new double[m], ownLKm = new double[m], wet = new double[m], limit = new double[m];
        double roomL = request.CapacityL - request.ReserveL;
        for (int i = 0; i < m; i++)
        {
            double toM = i + 1 < m ? places[i + 1].AtM : line.EndM, toL = i + 1 < m ? places[i + 1].CumulativeL : line.TotalL;
            lengthKm[i] = (toM - places[i].AtM) / 1000;
            needL[i] = toL - places[i].CumulativeL;
            ownLKm[i] = line.OwnLitreKm(places[i].AtM, toM, toL);
            wet[i] = places[i].Wet;
            limit[i] = Math.Min(roomL, places[i].AmountL);
        }

        int[] plan = new int[m];
        int states = m <= WaterCarryConstants.AlwaysExactPlaces + 1 ? Math.Max(request.SearchStates, 10_000_000) : request.SearchStates;
        int[] groups = Groups(places);
        bool again = WaterCarryShared.Applies(groups);
        WaterCarrySolution solution = again
            ? WaterCarryShared.Solve(lengthKm, needL, ownLKm, wet, limit, groups, alpha, states, plan, cancel)
            : WaterCarryKernel.Solve(lengthKm, needL, ownLKm, wet, limit, alpha, states, plan, cancel);
        var all = new List<Finding>(findings);
        if (!solution.Feasible)
        {
            double missing = Missing(places, line, request, roomL, out string from, out string to);
            all.Add(new Finding(HydrationFindingCodes.WaterShort, FindingSeverity.Warning, $"{from} to {to}",
                missing > 0
                    ? $"Between the certain supplies {from} and {to} more water is needed than can be carried: {Text.F(missing, 1)} L of capacity are missing. Carry more, place a cache, or shorten the ride."
                    : $"No plan keeps the probability of running dry within {Text.F(alpha * 100, 1)} %; the least is {Text.F(solution.LeastFailProbability * 100, 1)} %. Carry more, place a cache, or get a newer report.",
                new FindingValue("missing_l", Text.F(missing, 2)), new FindingValue("least_run_dry_pct", Text.F(solution.LeastFailProbability * 100, 3))));
            return new WaterCarryPlan(
                WaterCarryState.Insufficient, 0, 0, missing, double.NaN, double.NaN, solution.LeastFailProbability, solution.LeastFailProbability, true, [], cautious, all);
        }

        double[] arrival = new double[(m + 1) * (m + 1)];
        _ = again
            ? WaterCarryShared.Evaluate(lengthKm, needL, ownLKm, wet, groups, plan, arrival)
            : WaterCarryKernel.Evaluate(lengthKm, needL, ownLKm, wet, plan, arrival);
        var stops = new WaterStop[m];
        double largest = 0;
        double reserve = request.ReserveL;
        for (int i = 0; i < m; i++)
        {
            int least = m;
            for (int r = m; r >= i; r--)
            {
                if (arrival[(i * (m + 1)) + r] > 0)
                {
                    least = r;
                }
            }

            if (i == 0)
            {
                least = 0;
            }

            bool fills = plan[i] > least && places[i].Wet > 0;
            double targetL = CumulativeAt(plan[i]) - places[i].CumulativeL;
            double leastL = CumulativeAt(least) - places[i].CumulativeL;
            double taken = fills ? targetL - leastL : 0;
            largest = Math.Max(largest, Math.Max(fills ? targetL : 0, leastL) + reserve);
            WaterIfDry? ifDry = i > 0 && asGiven[i].Wet < 1 ? IfDry(i, least, fills) : null;
            stops[i] = new WaterStop(
                places[i].Name,
                UnitsNet.Length.FromMeters(places[i].AtM),
                places[i].Wet,
                fills,
                UnitsNet.Volume.FromLiters((fills ? targetL : leastL) + reserve),
                UnitsNet.Volume.FromLiters(i == 0 ? targetL + reserve : taken),
                Name(fills ? plan[i] : least),
                UnitsNet.Volume.FromLiters(i == 0 ? 0 : leastL + reserve),
                fills && places[i].NeedsTreatment,
                fills && places[i].NeedsTreatment ? request.Treatment?.Time(UnitsNet.Volume.FromLiters(taken), UnitsNet.Length.FromMeters(places[i].ElevationM)) : null,
                ifDry);
            if (fills && asGiven[i].Wet < 1)
            {
                all.Add(new Finding(HydrationFindingCodes.DoubtfulSource, FindingSeverity.Warning, places[i].Name,
                    $"The plan takes water here and it may be dry ({Text.F(asGiven[i].Wet * 100, 0)} % wet). If dry: {ifDry!.Text}"));
            }
        }

        if (!solution.Proven)
        {
            all.Add(new Finding(HydrationFindingCodes.PlanNotProven, FindingSeverity.Note, "search",
                $"The search was cut after {solution.States} states: a plan with up to {Text.F((solution.CostLKm - solution.BoundLKm) / solution.CostLKm * 100, 1)} % fewer litre-kilometres may exist. The limits hold."));
        }

        return new WaterCarryPlan(
            WaterCarryState.Planned, stops[0].FillTo.Liters, largest, 0, solution.CostLKm, solution.BoundLKm, solution.FailProbability,
            solution.LeastFailProbability, solution.Proven, stops, cautious, all);

        string Name(int node) => node < m ? places[node].Name : "the end";

        double CumulativeAt(int node) => node < m ? places[node].CumulativeL : line.TotalL;

        double AtM(int node) => node < m ? places[node].AtM : line.EndM;

        WaterIfDry IfDry(int i, int least, bool fills)
        {
            // The worst case the plan allows: every doubtful place before was dry as well, unless that case has failed already.
            int back = 0;
            int reach = plan[0];
            for (int k = 1; k < i; k++)
            {
                if (places[k].Wet >= 1 && plan[k] > reach || reach == k)
                {
                    back = k;
                    reach = Math.Max(reach, plan[k]);
                }
            }

            double leastL = CumulativeAt(least) - places[i].CumulativeL, needBack = places[i].CumulativeL - places[back].CumulativeL;
            if (least > i)
            {
                return new WaterIfDry(
                    UnitsNet.Volume.FromLiters(leastL + reserve), Name(least), UnitsNet.Length.FromMeters(AtM(least)), places[back].Name,
                    UnitsNet.Volume.FromLiters(needBack), null,
                    $"go on, the water in hand lasts to {Name(least)} (km {Text.F(AtM(least) / 1000, 1)}).");
            }

            // Nothing but the reserve is left: decide where half of the water taken at the last place is gone.
            double turnM = line.PositionOf(places[back].CumulativeL + (needBack / 2), places[back].AtM, places[i].AtM);
            return new WaterIfDry(
                UnitsNet.Volume.FromLiters(reserve), "", null, places[back].Name, UnitsNet.Volume.FromLiters(needBack), UnitsNet.Length.FromMeters(turnM),
                $"only the reserve is left. Without news that it holds water, turn back by km {Text.F(turnM / 1000, 1)}: past it the water no longer lasts back to {places[back].Name}.");
        }
    }

    /// <summary>Capacity that is missing on the stretch with the greatest need between certain supplies.</summary>
    private static double Missing(IReadOnlyList<Place> places, DemandLine line, WaterCarryRequest request, double roomL, out string from, out string to)
    {
        double worst = 0, since = places[0].CumulativeL;
        string name = places[0].Name;
        from = places[0].Name;
        to = "the end";
        for (int i = 1; i <= places.Count; i++)
        {
            if (i < places.Count && places[i].Wet < request.TrustedProbability)
            {
                continue;
            }

            double at = i < places.Count ? places[i].CumulativeL : line.TotalL;
            if (at - since > worst)
            {
                worst = at - since;
                from = name;
                to = i < places.Count ? places[i].Name : "the end";
            }

            if (i < places.Count)
            {
                since = at;
                name = places[i].Name;
            }
        }

        return Math.Max(0, worst - roomL);
    }

    private sealed record Place(string Name, double AtM, double Wet, double AmountL, bool NeedsTreatment, double CumulativeL, double ElevationM)
    {
        public string? PassOf { get; init; }
    }

    /// <summary>The source of each place that is passed more than once; -1 elsewhere.</summary>
    private static int[] Groups(IReadOnlyList<Place> places)
    {
        var names = new List<string>();
        return [.. places.Select(p =>
        {
            if (p.PassOf is not { } name)
            {
                return -1;
            }

            if (!names.Contains(name))
            {
                names.Add(name);
            }

            return names.IndexOf(name);
        })];
    }
}
