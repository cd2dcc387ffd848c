using SoloRide.Effort;

namespace SoloRide.Accuracy;

/// <summary>Published examples by the id of their row: our value, the published one, and the rounding the source allows.</summary>
internal static class EffortExamples
{
    private const double MileM = 1609.344, G = 9.81;

    public static IEnumerable<(double Ours, double Published, double Tolerance)> Of(string id)
    {
        switch (id)
        {
            case "PE01":
            {
                double v = 471.8 / 56.42, head = RidePowerKernel.HeadWindMps(2.94, 310, 340);
                double inertia = 90 + (RidePowerKernel.WheelInertiaKgM2 / (RidePowerKernel.WheelRadiusM * RidePowerKernel.WheelRadiusM));
                double kinetic = 0.5 * inertia * ((8.45 * 8.45) - (8.28 * 8.28)) / 56.42;
                return [(RidePowerKernel.PedalPowerW(v, head, 90, 0.003, 0.0032, 0.2565 + RidePowerKernel.SpokeDragM2, 1.2234, kinetic, RidePowerKernel.CleanDriveEfficiency, G), 213, 0.5)];
            }

            case "PE04": return [(FuelKernel.AcsmLegMlPerKgMin(450, 62), 20, 0.1)];
            case "PE05": return [(FuelKernel.AcsmLegMlPerKgMin(840, (190 / 2.2)), 24.51, 0.01)];
            case "PE06": return [(FuelKernel.AcsmLegMlPerKgMin(840, (190 / 2.2)) / 3.5, 7, 0.01)];
            case "PE07": return [(FuelKernel.AcsmLegMlPerKgMin(840, (190 / 2.2)) * (190 / 2.2) / 1000, 2.12, 0.005)];
            case "PE08": return [(WalkCostKernel.AcsmWalkMlPerKgMin(3 * MileM / 60, 0), 11.6, 0.1), (WalkCostKernel.AcsmWalkMlPerKgMin(3 * MileM / 60, 0) / 3.5, 3.3, 0.05)];
            case "PE09": return [(RestingKernel.MifflinKcalPerDay(Sex.Female, 75, 165.1, 45), 1396, 1)];
            case "PE10": return [(RestingKernel.MifflinKcalPerDay(Sex.Male, 80, 180, 30), 1780, 1e-9)];
            case "PE13": return [(RestingKernel.SchofieldMjPerDay(Sex.Male, 73, 30.1), 7.157, 1e-9)];
            case "PE14": return [(RestingKernel.SchofieldMjPerDay(Sex.Male, 73, 2.0, 30.1), 7.152, 1e-9)];
            case "PE15": return [(RestingKernel.FaoKcalPerDay(Sex.Male, 73, 30.1), 1710.556, 1e-9)];
            case "PE16": return [(RestingKernel.FaoKcalPerDay(Sex.Male, 73, 30.1) / 1440 / 5.008 * 1000 / 73, 3.249284, 1e-6)];
            case "PE17": return [(RestingKernel.FaoKcalPerDay(Sex.Male, 73, 30.1) / 1440 / 5 * 1000 / 73, 3.254482, 1e-6)];
            case "PE18": return [(15.7 * FuelKernel.LuskKcalPerL(Math.Round(12.0 / 15.7, 2)), 74.59, 0.05)];
            case "PE21": return [(WalkCostKernel.MinettiWalkJPerKgM(0.45), 17.33, 1.11)];
            case "PE22": return [(WalkCostKernel.MinettiWalkJPerKgM(-0.10), 0.81, 0.37)];
            case "PE23": return [(WalkCostKernel.MinettiWalkJPerKgM(-0.45), 3.46, 0.95)];
            case "PE24": return [(WalkCostKernel.MinettiRunJPerKgM(0), 3.40, 0.24)];
            case "PE25": return [(WalkCostKernel.MinettiRunJPerKgM(0.45), 18.93, 1.74)];
            case "PE26": return [(WalkCostKernel.MinettiRunJPerKgM(-0.20), 1.73, 0.36)];
            case "PE27": return [(WalkCostKernel.MinettiRunJPerKgM(-0.45), 3.92, 0.81)];
            case "PE28": return [(WalkCostKernel.HerzogJPerKgM(0), 1.64, 1e-9)];
            case "PE29": return [(WalkCostKernel.LcdaWPerKg(0.4768426667, 13.24968434, WalkCostKernel.LcdaBaseVariant), 5.002098962, 1e-7)];
            case "PE30": return [(WalkCostKernel.LcdaWPerKg(0.89408, 15.15151515, WalkCostKernel.LcdaBaseVariant), 8.04202677, 1e-7)];
            case "PE31": return [(WalkCostKernel.LcdaWPerKg(0.54395076, -11.83712121, WalkCostKernel.LcdaBaseVariant), 2.305600338, 1e-7)];
            case "PE34": return [(WalkCostKernel.LoadFactor(5, 70), 1.054, 0.003), (WalkCostKernel.LoadFactor(8, 70), 1.10, 0.003)];
            case "PE35": return [(WalkCostKernel.LoadFactor(15, 75), 1.22, 0.005), (WalkCostKernel.LoadFactor(25, 75), 1.44, 0.005)];
            case "PE38": return [(60 * HikingKernel.NaismithEightHours(20, 1600, 5), 394, 1)];
            case "PE39": return [(60 * HikingKernel.NaismithEightHours(20, 1600, 8), 246, 1)];
            case "PE40": return [(HikingKernel.NaismithMinutes(1, 100), 22, 1e-9)];
            case "PE41": return [(60 * HikingKernel.LangmuirHours(0, 0, 300, 0), -10, 1e-9), (60 * HikingKernel.LangmuirHours(0, 0, 0, 300), 10, 1e-9)];
            case "PE42": return [(HikingKernel.DinHours(8, 900, 0), 4, 1e-9)];
            case "PE43": return [(HikingKernel.DinHours(4, 0, 0), 1, 1e-9), (HikingKernel.DinHours(0, 300, 0), 1, 1e-9), (HikingKernel.DinHours(0, 0, 500), 1, 1e-9)];
            case "PE44": return [(60 / HikingKernel.SwissMinPerKm(0), 4.2, 0.01)];
            case "PE45": return [(60 * HikingKernel.MunterHours(9.5, 500, 4), 218, 1)];
            case "PE46": return [(60 * HikingKernel.MunterHours(9.5, 500, 10), 87, 1e-9)];
            case "PE47": return [(60 * (HikingKernel.MunterHours(9.5, 500, 4) + HikingKernel.MunterHours(9.5, 500, 10)), 305, 1)];
            case "PE48": return [(HikingKernel.EffortKm(10, 1, 1), 23.3, 1e-9)];
            case "PE49": return [(HikingKernel.ToblerKmh(-0.05, false), 6, 0.01), (HikingKernel.ToblerKmh(0, false), 5.04, 0.01)];
            case "PE55": return [(FuelKernel.WeirKcalPerMin(1, 0), 3.9, 1e-9), (FuelKernel.WeirKcalPerMin(0, 1), 1.1, 1e-9)];
            default: return [];
        }
    }

    /// <summary>
    /// Grade [%] from which walking is faster than riding at one metabolic power: efficiency 0.20, bike 0.16 of the body, drag area
    /// 0.50 m², clean drive, no slower than 1 m/s on the bike.
    /// </summary>
    public static double CrossoverPercent(double metabolicWPerKg, double rolling, bool loaded)
    {
        const double Body = 75, Bike = 0.16 * Body, Efficiency = 0.20, Density = 1.2, Drag = 0.50, Slowest = 1.0;
        double load = loaded ? WalkCostKernel.LoadFactor(Bike, Body) : 1;
        for (double percent = 1; percent < 60; percent += 0.01)
        {
            double grade = percent / 100, cos = 1 / Math.Sqrt(1 + (grade * grade));
            double c = ((Body + Bike) * Internal.Si.GravityMps2 * cos * (grade + rolling)) + RidePowerKernel.BearingN;
            double ride = RidePowerKernel.SpeedMps(
                0.5 * Density * (Drag + RidePowerKernel.SpokeDragM2), RidePowerKernel.BearingNsPerM, c, Efficiency * metabolicWPerKg * Body * RidePowerKernel.CleanDriveEfficiency, 0);
            double walk = WalkCostKernel.SpeedMps(metabolicWPerKg, percent, load, 1, 4);
            if (ride < Slowest || walk >= ride)
            {
                return percent;
            }
        }

        return 60;
    }
}
