using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Plans food by energy, carbohydrate and mass: the way in is <see cref="Plan"/>.</summary>
/// <remarks>Pure and thread-safe.</remarks>
[Entry]
public static class FoodPlanner
{
    [Source("assumption-food", "mean share of maximal uptake where none is known")]
    private const double AssumedUptakeShare = 0.55;

    [Source("assumption-food", "energy of an hour's walking that the reserve feeds, by body mass [kcal/kg]")]
    private const double ReserveKcalPerKgHour = 3;

    [Source("assumption-food", "share of a night's filling of the stores")]
    private const double OvernightRefill = 0.8;

    [Source("assumption-food", "day around the ride, on the resting energy")]
    private const double CampFactor = 1.3;

    [Source("assumption-rider-mass", "where no mass is given")]
    private const double AssumedMassKg = 75;

    [Source("acsm-and-dc-2016", "hours from, carbohydrate low and high [g/h]; the wider of overlapping rows")]
    private static readonly (double FromHours, double Low, double High)[] Guidance = [(0, 0, 0), (0.75, 0, 30), (1.0, 30, 60), (2.5, 60, 90)];

    /// <summary>Makes the plan.</summary>
    /// <param name="request">Rider, days, foods and limits.</param>
    /// <returns>The plan; what cannot be met is a finding.</returns>
    /// <exception cref="ArgumentNullException">No request.</exception>
    public static FoodPlan Plan(FoodRequest request)
    {
        Guard.NotNull(request);
        var findings = new List<Finding>();
        double mass = Si.Kg(request.Rider.Mass);
        if (double.IsNaN(mass))
        {
            mass = AssumedMassKg;
            findings.Add(new Finding(EffortFindingCodes.MassAssumed, FindingSeverity.Caution, "rider", "No body mass is given; 75 kg is assumed.", new FindingValue("mass_kg", "75")));
        }

        if (request.Rider.MaxOxygenUptakeMlPerKgMin is null)
        {
            findings.Add(new Finding(EffortFindingCodes.FuelShare, FindingSeverity.Note, "food", "No oxygen uptake is given: 55 % of the maximum is assumed on the way, which sets the share of carbohydrate."));
        }

        bool whole = request.WholeDays ?? request.Days.Count > 1;
        double restJ = whole ? EnergyEstimator.Resting(request.Rider with { Mass = Mass.FromKilograms(mass) }).Energy.Typical.Joules : 0;
        FoodItem[] foods = [.. request.Foods.Where(f => f.Use == FoodUse.Eat)];
        double[] leftKg = [.. foods.Select(f => f.AvailableKg)];
        double[] takenKg = new double[foods.Length];
        var days = new List<FoodDayPlan>();
        double stores = request.StoresG;
        foreach (FoodDay day in request.Days)
        {
            (double low, double high) = GuidanceGPerHour(day.Elapsed.TotalHours);
            double hours = day.Elapsed.TotalHours, target = Math.Min((low + (request.GuidanceFraction * (high - low))) * hours, day.EnergyJ / 4184 / FuelKernel.KcalPerGramCarbohydrate);
            double share = Share(request.Rider, mass, day), used = share * day.EnergyJ / 4184 / FuelKernel.KcalPerGramCarbohydrate;
            double campHours = whole ? 24 - hours : 0, needJ = day.EnergyJ + (restJ * CampFactor * campHours / 24);
            double wantJ = whole ? request.CoverageFraction * needJ : 0, canG = request.PalatableGPerHour * hours;
            double[] ride = FoodChoice.Pick(foods, leftKg, target / 1000, 0, canG / 1000, request.OneFoodFraction);
            Take(ride);
            double rideJ = Joules(ride), rideG = Grams(ride), campJ = 0;
            if (target > 0 && rideG < 0.98 * target)
            {
                findings.Add(new Finding(
                    EffortFindingCodes.FoodShort, FindingSeverity.Warning, "food",
                    string.Create(CultureInfo.InvariantCulture, $"Foods and the palatable rate give {rideG:F0} g of carbohydrate of {target:F0} g aimed at."),
                    new FindingValue("carbohydrate_g", Text.F(rideG, 0)), new FindingValue("target_g", Text.F(target, 0))));
            }

            if (whole && wantJ > rideJ)
            {
                double[] camp = FoodChoice.Pick(foods, leftKg, 0, wantJ - rideJ, double.PositiveInfinity, request.OneFoodFraction);
                Take(camp);
                campJ = Joules(camp);
                if (campJ < 0.98 * (wantJ - rideJ))
                {
                    findings.Add(new Finding(EffortFindingCodes.FoodShort, FindingSeverity.Warning, "food", "The foods at hand do not hold the energy wanted for whole days."));
                }
            }

            var plan = new FoodDayPlan(day, needJ, used, (low, high), hours, target, rideJ, rideG, campJ, Hours(day, used, rideJ, rideG, stores));
            days.Add(plan);
            double after = Math.Max(0, stores + rideG - used);
            if (stores + rideG < used)
            {
                findings.Add(new Finding(
                    EffortFindingCodes.StoresSpent, FindingSeverity.Caution, "food",
                    string.Create(CultureInfo.InvariantCulture, $"Stores and food fall {used - stores - rideG:F0} g of carbohydrate short of what this pace burns: expect to slow down."),
                    new FindingValue("short_g", Text.F(used - stores - rideG, 0))));
            }

            stores = Math.Min(request.StoresG, after + (OvernightRefill * (request.StoresG - after)));
        }

        double reserveJ = request.ReserveFor.TotalHours * ReserveKcalPerKgHour * mass * 4184;
        FoodItem[] kept = [.. request.Foods.Where(f => f.Use == FoodUse.Reserve)];
        double[] reserve = FoodChoice.Pick(kept, [.. kept.Select(f => f.AvailableKg)], 0, reserveJ, double.PositiveInfinity, 1);
        var reservePortions = Portions(kept, reserve);
        double missing = reserveJ - reservePortions.Sum(p => p.Content.Joules);
        if (missing > 0.02 * reserveJ)
        {
            double[] more = FoodChoice.Pick(foods, leftKg, 0, missing, double.PositiveInfinity, 1);
            Take(more, count: false);
            reservePortions.AddRange(Portions(foods, more));
            if (reserveJ - reservePortions.Sum(p => p.Content.Joules) > 0.02 * reserveJ)
            {
                findings.Add(new Finding(EffortFindingCodes.ReserveShort, FindingSeverity.Warning, "food", "The foods at hand do not hold the reserve."));
            }
        }

        List<FoodPortion> eat = Portions(foods, takenKg);
        if (eat.Concat(reservePortions).Any(p => p.Food.SodiumMgPer100G is null))
        {
            findings.Add(new Finding(
                EffortFindingCodes.SodiumUnknown, FindingSeverity.Note, "food",
                "Sodium of some foods is not given and not counted: " + string.Join(", ", eat.Concat(reservePortions).Where(p => p.Food.SodiumMgPer100G is null).Select(p => p.Food.Name).Distinct()) + "."));
        }

        return new FoodPlan(days, eat, reservePortions, findings);

        void Take(double[] kg, bool count = true)
        {
            for (int i = 0; i < kg.Length; i++)
            {
                leftKg[i] -= kg[i];
                takenKg[i] += count ? kg[i] : 0;
            }
        }

        double Joules(double[] kg) => kg.Select((m, i) => m * 10 * foods[i].EnergyKcalPer100G * 4184).Sum();

        double Grams(double[] kg) => kg.Select((m, i) => m * 10 * foods[i].CarbohydrateGPer100G).Sum();
    }

    internal static (double Low, double High) GuidanceGPerHour(double hours)
    {
        (double Low, double High) found = (0, 0);
        foreach ((double from, double low, double high) in Guidance)
        {
            if (hours >= from)
            {
                found = (low, high);
            }
        }

        return found;
    }

    private static List<FoodPortion> Portions(FoodItem[] foods, double[] kg)
        => [.. foods.Select((f, i) => new FoodPortion(f, kg[i])).Where(p => p.Kg > 0)];

    private static double Share(Rider rider, double massKg, FoodDay day)
    {
        double hours = day.Moving.TotalHours;
        if (rider.MaxOxygenUptakeMlPerKgMin is { } uptake && hours > 0)
        {
            double mlPerKgMin = day.EnergyJ / EffortResolver.JoulePerMlOxygen / massKg / (hours * 60);
            return Math.Clamp(FuelKernel.CarbohydrateShare(Math.Min(1, mlPerKgMin / uptake)), 0, 1);
        }

        return FuelKernel.CarbohydrateShare(AssumedUptakeShare);
    }

    private static List<FoodHour> Hours(FoodDay day, double usedG, double eatenJ, double eatenG, double storesG)
    {
        var list = new List<FoodHour>();
        double total = day.Elapsed.TotalHours;
        for (int h = 1; h <= (int)Math.Ceiling(total - 1e-9); h++)
        {
            double t = Math.Min(h, total) / total;
            list.Add(new FoodHour(
                h >= total ? day.Elapsed : TimeSpan.FromHours(h), Energy.FromJoules(t * day.EnergyJ), Energy.FromJoules(t * eatenJ), Mass.FromGrams(t * eatenG),
                Mass.FromGrams(Math.Max(0, storesG - (t * Math.Max(0, usedG - eatenG))))));
        }

        return list;
    }
}
