using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Weighs treating found water on the way against carrying all of it, in kilogram-kilometres and in time.</summary>
/// <remarks>
/// A filter that clogs or may have frozen counts as lost; the result then rests on the second method, and says when there is none.
/// One litre counts as one kilogram. Thread-safe.
/// </remarks>
[Entry(NoOutsideCheck = "no published comparison with figures was found; checked by arithmetic and by laws")]
public static class FilterOrCarryCalculator
{
    /// <summary>Compares both ways.</summary>
    /// <param name="request">Demand, sources, capacity and limits; its treatment is not used.</param>
    /// <param name="kit">Filter or other method, vessel, second method.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <returns>Both ways, and the one without the first method.</returns>
    /// <exception cref="ArgumentException">As in <see cref="WaterCarryPlanner.Plan"/>.</exception>
    public static FilterOrCarry Compare(WaterCarryRequest request, TreatmentKit kit, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        Guard.NotNull(kit);
        var findings = new List<Finding>();
        bool lost = kit.Lost == Known.Yes || (kit.Lost == Known.Unknown && kit.Method.Method == WaterTreatmentMethod.Filter);
        WaterSupplyOption carry = Option(WaterSupplyWay.CarryAll, null, 0);
        WaterSupplyOption without = Option(WaterSupplyWay.FirstMethodLost, kit.Second, kit.TotalKg);
        WaterSupplyOption treat = lost ? without with { Way = WaterSupplyWay.Treat } : Option(WaterSupplyWay.Treat, kit.Method, kit.TotalKg);
        findings.AddRange(kit.Method.Limits());
        if (lost)
        {
            findings.Add(new Finding(HydrationFindingCodes.FilterLost, FindingSeverity.Warning, kit.Method.ToString(),
                "Counts as lost (clogged, or it may have frozen): the plan rests on " + (kit.Second is null ? "carrying alone." : $"the second method, {kit.Second}.")));
        }

        if (kit.Second is null)
        {
            findings.Add(new Finding(HydrationFindingCodes.NoSecondMethod, FindingSeverity.Warning, kit.Method.ToString(),
                "There is no second method: if this one fails, found water cannot be treated. Carry tablets or a way to boil."
                + (without.Works ? "" : " Without it the water does not last within the limits.")));
        }
        else
        {
            findings.AddRange(kit.Second.Limits().Where(f => f.Code == HydrationFindingCodes.TreatmentLimits));
        }

        WaterSupplyWay? lighter = (carry.Works, treat.Works) switch
        {
            (false, false) => null,
            (true, false) => WaterSupplyWay.CarryAll,
            (false, true) => WaterSupplyWay.Treat,
            _ => treat.CarriedKgKm < carry.CarriedKgKm ? WaterSupplyWay.Treat : WaterSupplyWay.CarryAll,
        };
        double saved = carry.Works && treat.Works ? Math.Abs(carry.CarriedKgKm - treat.CarriedKgKm) : 0;
        return new FilterOrCarry(carry, treat, without, lighter, saved, findings);

        WaterSupplyOption Option(WaterSupplyWay way, WaterTreatment? method, double kitKg)
        {
            WaterCarryRequest own = request with
            {
                Sources = [.. request.Sources.Where(s => method is not null || !Guard.NotNull(s, nameof(request)).NeedsTreatment)],
                Treatment = method,
            };
            WaterCarryPlan plan = WaterCarryPlanner.Plan(own, cancel);
            double km = (request.Demand[^1].ToM - request.Demand[0].FromM) / 1000;
            bool works = plan.State == WaterCarryState.Planned;
            return new WaterSupplyOption(
                way, plan, method, Mass.FromKilograms(kitKg), Mass.FromKilograms(kitKg + plan.CarryFromStart.Liters),
                works ? plan.ExpectedLitreKm + ((request.Reserve.Liters + kitKg) * km) : double.NaN,
                works && method is not null ? Time(plan, method) : null);
        }

        Estimate<TimeSpan>? Time(WaterCarryPlan plan, WaterTreatment method)
        {
            TimeSpan typical = TimeSpan.Zero, high = TimeSpan.Zero;
            foreach (WaterStop stop in plan.Stops)
            {
                if (!stop.NeedsTreatment || stop.MostTaken.Liters <= 0)
                {
                    continue;
                }

                if (stop.TreatmentTime is not { } t)
                {
                    return null;
                }

                double fills = double.IsNaN(kit.VesselL) ? 1 : Math.Ceiling((stop.MostTaken.Liters / kit.VesselL) - 1e-9);
                TimeSpan more = method.SetUp * (fills - 1);
                typical += t.Typical + more;
                high += t.High + more;
            }

            return new Estimate<TimeSpan>(typical, typical, high);
        }
    }
}
