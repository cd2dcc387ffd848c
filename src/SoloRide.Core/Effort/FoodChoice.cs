using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Least mass of foods that hold so much carbohydrate and energy, under a limit of all and of each.</summary>
internal static class FoodChoice
{
    private const int Mixes = 100;

    /// <summary>
    /// Greedy by a weighted density, over all weights from carbohydrate alone to energy alone; the lightest of those that meet both (or
    /// else the one that comes nearest) is taken. With one demand this is the exact optimum.
    /// </summary>
    [Source("derived-food-choice", "weighted greedy")]
    public static double[] Pick(FoodItem[] foods, double[] availableKg, double carbohydrateKg, double energyJ, double mostKg, double oneFoodFraction)
    {
        double[] best = new double[foods.Length];
        if (foods.Length == 0 || (carbohydrateKg <= 0 && energyJ <= 0))
        {
            return best;
        }

        double bestShort = double.PositiveInfinity, bestMass = double.PositiveInfinity;
        for (int mix = 0; mix <= Mixes; mix++)
        {
            double w = (double)mix / Mixes;
            if ((carbohydrateKg <= 0 && mix > 0) || (energyJ <= 0 && mix < Mixes))
            {
                continue;
            }

            double[] kg = Greedy(foods, availableKg, carbohydrateKg, energyJ, mostKg, oneFoodFraction, w);
            double mass = kg.Sum(), lack = Math.Max(0, carbohydrateKg > 0 ? 1 - (Carbohydrate(foods, kg) / carbohydrateKg) : 0) + Math.Max(0, energyJ > 0 ? 1 - (Joules(foods, kg) / energyJ) : 0);
            lack = lack < 1e-9 ? 0 : lack;
            if (lack < bestShort - 1e-12 || (lack <= bestShort + 1e-12 && mass < bestMass - 1e-12))
            {
                (best, bestShort, bestMass) = (kg, lack, mass);
            }
        }

        return best;
    }

    private static double[] Greedy(FoodItem[] foods, double[] availableKg, double carbohydrateKg, double energyJ, double mostKg, double oneFoodFraction, double w)
    {
        // The share of one food refers to the whole, which is not known before: a few rounds settle it.
        double whole = double.IsFinite(mostKg) ? mostKg : double.PositiveInfinity;
        double[] kg = new double[foods.Length];
        int[] order = [.. Enumerable.Range(0, foods.Length).OrderByDescending(Density).ThenBy(i => i)];
        double cap = Math.Max(oneFoodFraction, 1.0 / foods.Length);
        for (int round = 0; round < 12; round++)
        {
            Array.Clear(kg);
            double carb = 0, joules = 0, mass = 0, limit = round == 0 || cap >= 1 ? double.PositiveInfinity : cap * whole;
            foreach (int i in order)
            {
                double c = 0.01 * foods[i].CarbohydrateGPer100G, e = 41_840 * foods[i].EnergyKcalPer100G;
                double want = Math.Max(carbohydrateKg > carb ? (c > 0 ? (carbohydrateKg - carb) / c : double.PositiveInfinity) : 0, energyJ > joules ? (energyJ - joules) / e : 0);
                double take = Math.Max(0, Math.Min(Math.Min(want, Math.Max(0, availableKg[i])), Math.Min(limit, mostKg - mass)));
                take = c <= 0 && energyJ <= joules ? 0 : take;
                kg[i] = take;
                carb += take * c;
                joules += take * e;
                mass += take;
            }

            if (cap >= 1 || Math.Abs(mass - whole) <= 1e-9 * Math.Max(1e-9, mass))
            {
                break;
            }

            whole = mass;
        }

        return kg;

        double Density(int i) => (carbohydrateKg > 0 ? w * 0.01 * foods[i].CarbohydrateGPer100G / carbohydrateKg : 0) + (energyJ > 0 ? (1 - w) * 41_840 * foods[i].EnergyKcalPer100G / energyJ : 0);
    }

    private static double Carbohydrate(FoodItem[] foods, double[] kg) => kg.Select((m, i) => m * 0.01 * foods[i].CarbohydrateGPer100G).Sum();

    private static double Joules(FoodItem[] foods, double[] kg) => kg.Select((m, i) => m * 41_840 * foods[i].EnergyKcalPer100G).Sum();
}
