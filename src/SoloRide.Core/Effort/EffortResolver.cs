using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>From what a rider knows to the power held for hours.</summary>
internal static class EffortResolver
{
    [Source("assumption-effort-spread", "a power meter and a good guess of hours")]
    private const double StatedLogSd = 0.05;

    [Source("assumption-effort-spread", "climbing rate: mass, surface and grade of that climb are not known")]
    private const double ClimbLogSd = 0.10;

    [Source("assumption-effort-spread", "one ride on one day")]
    private const double TimedLogSd = 0.12;

    [Source("assumption-effort-spread", "share of the maximal uptake held for hours, and efficiency")]
    private const double UptakeLogSd = 0.15;

    [Source("assumption-effort-spread", "prior")]
    private const double PriorLogSd = 0.28;

    [Source("assumption-climb-of-reference", "a firm climb of 8 per cent")]
    private const double ClimbGradeFraction = 0.08;

    [Source("assumption-sustained-share", "of maximal oxygen uptake, for hours")]
    private const double SustainedUptakeFraction = 0.60;

    [Source("assumption-sustained-share", "5 kcal/L in J/mL")]
    internal const double JoulePerMlOxygen = 20.92;

    [Source("assumption-rider-prior", "W/kg of a man of 35 or younger by habit: seldom, regular, frequent")]
    private static readonly double[] PriorWPerKg = [1.4, 1.8, 2.4];

    [Source("assumption-rider-prior", "women against men")]
    private const double FemaleFactor = 0.85;

    [Source("assumption-rider-prior", "loss a year from 35 on")]
    private const double LossPerYearFraction = 0.008;

    private const int LossFromYears = 35;

    private const double LowestW = 20, HighestW = 600;

    public static SustainedEffort Resolve(Rider rider, Bike bike, Load load, PaceOptions options, double massKg, Func<SustainedEffort, PaceModel> model)
    {
        double ge = options.GrossEfficiencyFraction;
        if (options.Calibration is { } own)
        {
            return new SustainedEffort(EffortBasis.OwnRides, (double)own.SustainedPower.Watts, Math.Log(own.PowerGsdFactor), ge);
        }

        double stated = Si.W(rider.SustainedPower), climb = Si.Mps(rider.ClimbingRate);
        if (!double.IsNaN(stated))
        {
            return new SustainedEffort(EffortBasis.StatedPower, stated, StatedLogSd, ge);
        }

        if (!double.IsNaN(climb))
        {
            double all = massKg + bike.Mass.Kilograms + load.OnBody.Kilograms + load.OnBike.Kilograms;
            double speed = climb * Math.Sqrt(1 + (ClimbGradeFraction * ClimbGradeFraction)) / ClimbGradeFraction;
            double w = RidePowerKernel.PedalPowerW(
                speed, 0, all, ClimbGradeFraction, TrailPriors.Rolling(TrailSurface.Firm) * bike.RollingFactor, (bike.DragAreaM2 ?? TrailPriors.DragAreaM2) + RidePowerKernel.SpokeDragM2,
                AirKernel.DensityKgPerM3(0, AirKernel.SeaLevelK), 0, options.DriveEfficiencyFraction, Si.GravityMps2);
            return new SustainedEffort(EffortBasis.ClimbingRate, w, ClimbLogSd, ge);
        }

        if (options.TimedRide is { } ride)
        {
            return new SustainedEffort(EffortBasis.TimedRide, PowerOf(ride, ge, model), TimedLogSd, ge);
        }

        if (rider.MaxOxygenUptakeMlPerKgMin is { } uptake)
        {
            double metabolic = SustainedUptakeFraction * uptake * massKg / 60 * JoulePerMlOxygen;
            return new SustainedEffort(EffortBasis.OxygenUptake, metabolic * ge, UptakeLogSd, ge);
        }

        double sex = rider.Sex switch { Sex.Male => 1, Sex.Female => FemaleFactor, _ => (1 + FemaleFactor) / 2 };
        double age = rider.AgeYears is { } years && years > LossFromYears ? 1 - (LossPerYearFraction * (years - LossFromYears)) : 1;
        return new SustainedEffort(EffortBasis.Prior, PriorWPerKg[(int)options.Habit] * sex * age * massKg, PriorLogSd, ge);
    }

    public static Finding Describe(SustainedEffort effort, double massKg)
    {
        string watts = Text.F(effort.PowerW, 0), range = $"{Text.F((double)effort.Power.Low.Watts, 0)} to {Text.F((double)effort.Power.High.Watts, 0)} W";
        (FindingSeverity severity, string words) = effort.Basis switch
        {
            EffortBasis.OwnRides => (FindingSeverity.Note, "learned from own timed legs"),
            EffortBasis.StatedPower => (FindingSeverity.Note, "as stated"),
            EffortBasis.ClimbingRate => (FindingSeverity.Note, "from the climbing rate, on a firm climb of 8 %"),
            EffortBasis.TimedRide => (FindingSeverity.Note, "from one timed ride"),
            EffortBasis.OxygenUptake => (FindingSeverity.Caution, "60 % of the stated oxygen uptake, an assumption"),
            _ => (FindingSeverity.Caution, "a prior by age, sex, mass and habit: wide; a climbing rate or one timed ride narrows it"),
        };
        return new Finding(
            EffortFindingCodes.EffortBasis, severity, "rider", $"Sustained power {watts} W ({range}): {words}.",
            new FindingValue("basis", effort.Basis.ToString()), new FindingValue("power_w", watts), new FindingValue("power_w_per_kg", Text.F(effort.PowerW / massKg, 2)));
    }

    /// <summary>The power at which the model takes just the recorded moving time; bracketed, since more power is never slower.</summary>
    private static double PowerOf(TimedLeg ride, double ge, Func<SustainedEffort, PaceModel> model)
    {
        double low = LowestW, high = HighestW, target = ride.Moving.TotalSeconds;
        for (int i = 0; i < 40; i++)
        {
            double mid = Math.Sqrt(low * high);
            if (Seconds(mid) > target)
            {
                low = mid;
            }
            else
            {
                high = mid;
            }
        }

        return Math.Sqrt(low * high);

        double Seconds(double w)
        {
            PaceModel m = model(new SustainedEffort(EffortBasis.TimedRide, w, 0, ge));
            return m.Along(ride.Steps).Moving.Typical.TotalSeconds;
        }
    }
}
