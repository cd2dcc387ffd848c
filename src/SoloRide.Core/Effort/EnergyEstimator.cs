using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>Energy that a body turns over, by resting equations, heart rate, cycling power, activity code or class.</summary>
/// <remarks>Group means with the scatter the sources state; not a medical statement. Pure and thread-safe.</remarks>
[Entry]
public static class EnergyEstimator
{
    [Source("mifflin-1990", "78 % of adults within 10 % (498 adults), taken as P10 to P90")]
    private const double RestingLogSd = 0.074;

    [Source("keytel-2005", "r 0.857 without and 0.913 with oxygen uptake, as relative scatter (assumption)")]
    private const double HeartRateLogSd = 0.20, HeartRateUptakeLogSd = 0.15;

    [Source("nickleberry-brooks-1996", "gross efficiency 0.13 to 0.24 between persons, as relative scatter")]
    private const double CyclingLogSd = 0.10;

    [Source("assumption-met-scatter", "between persons at one activity code or class")]
    private const double ActivityLogSd = 0.20;

    [Source("iso-8996-2004", "classes [W/m2]")]
    private static readonly double[] ClassWPerM2 = [65, 100, 165, 230, 290];

    [Source("keytel-2005", "115 adults of 18 to 45 years and 47 to 120 kg")]
    private const double KeytelYoungest = 18, KeytelOldest = 45, KeytelLightestKg = 47, KeytelHeaviestKg = 120;

    [Source("keytel-2005", "57 to 90 % of the highest heart rate, here 220 less age")]
    private const double KeytelLowestShare = 0.57, KeytelHighestShare = 0.90;

    /// <summary>Resting energy of a day.</summary>
    /// <param name="rider">Mass is needed; height and age are assumed with a finding where they are missing.</param>
    /// <param name="equation">The equation.</param>
    /// <returns>Energy of 24 h.</returns>
    /// <exception cref="ArgumentNullException">No rider.</exception>
    /// <exception cref="ArgumentException">No body mass.</exception>
    public static EnergyReading Resting(Rider rider, RestingEquation equation = RestingEquation.MifflinStJeor)
    {
        Guard.Defined(equation);
        var findings = new List<Finding>();
        (double kg, double m, double years) = Body(rider, findings, equation is RestingEquation.MifflinStJeor or RestingEquation.SchofieldHeight or RestingEquation.HarrisBenedict);
        double J(Sex sex) => equation switch
        {
            RestingEquation.MifflinStJeor => RestingKernel.MifflinKcalPerDay(sex, kg, m * 100, years) * 4184,
            RestingEquation.SchofieldMass => RestingKernel.SchofieldMjPerDay(sex, kg, years) * 1e6,
            RestingEquation.SchofieldHeight => RestingKernel.SchofieldMjPerDay(sex, kg, m, years) * 1e6,
            RestingEquation.FaoWho => RestingKernel.FaoKcalPerDay(sex, kg, years) * 4184,
            _ => RestingKernel.HarrisBenedictKcalPerDay(sex, kg, m * 100, years) * 4184,
        };
        return Reading(BySex(rider.Sex, J), RestingLogSd, TimeSpan.FromDays(1), $"resting energy by {equation}", findings, rider.Sex, J);
    }

    /// <summary>Energy of a whole day: resting energy times an activity factor for the hours around the ride, plus the ride.</summary>
    /// <param name="rider">As for <see cref="Resting"/>.</param>
    /// <param name="ride">The ride; null: a day without one.</param>
    /// <param name="activityFactor">[factor, 1 to 2.5] Of the hours around the ride, on the resting energy.</param>
    /// <returns>Energy of 24 h.</returns>
    /// <exception cref="ArgumentNullException">No rider.</exception>
    /// <exception cref="ArgumentException">No body mass.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The factor is outside its range.</exception>
    public static EnergyReading WholeDay(Rider rider, FoodDay? ride = null, double activityFactor = 1.3)
    {
        Guard.InRange(activityFactor, 1, 2.5, "(factor)");
        EnergyReading rest = Resting(rider);
        double around = rest.Energy.Typical.Joules * activityFactor * (24 - (ride?.Elapsed.TotalHours ?? 0)) / 24, sd = RestingLogSd;
        double total = around + (ride?.EnergyJ ?? 0);
        if (ride is not null)
        {
            double a = around * RestingLogSd, b = ride.EnergyJ * CyclingLogSd;
            sd = Math.Sqrt((a * a) + (b * b)) / total;
        }

        return Reading(total, sd, TimeSpan.FromDays(1), "resting energy, activity factor and ride", [.. rest.Findings], Sex.Male, null);
    }

    /// <summary>Energy of exercise from the mean heart rate.</summary>
    /// <param name="rider">Mass and age; oxygen uptake is used where given.</param>
    /// <param name="heartRateBpm">[beats/min, 30 to 230] Mean heart rate.</param>
    /// <param name="span">How long; above zero.</param>
    /// <returns>Energy; findings outside the fitted range.</returns>
    /// <exception cref="ArgumentNullException">No rider.</exception>
    /// <exception cref="ArgumentException">No body mass.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Heart rate or time outside its range.</exception>
    public static EnergyReading FromHeartRate(Rider rider, double heartRateBpm, TimeSpan span)
    {
        Guard.InRange(heartRateBpm, 30, 230, "beats/min");
        double minutes = Minutes(span);
        var findings = new List<Finding>();
        (double kg, _, double years) = Body(rider, findings, height: false);
        double highest = 220 - years, share = heartRateBpm / highest;
        if (share is < KeytelLowestShare or > KeytelHighestShare || years is < KeytelYoungest or > KeytelOldest || kg is < KeytelLightestKg or > KeytelHeaviestKg)
        {
            findings.Add(new Finding(
                EffortFindingCodes.HeartRateRange, FindingSeverity.Caution, "heart rate",
                string.Create(CultureInfo.InvariantCulture, $"{share:P0} of an assumed highest rate of {highest:F0}, {years:F0} years, {kg:F0} kg: the equation was fitted at 57 to 90 %, 18 to 45 years, 47 to 120 kg."),
                new FindingValue("share_of_highest", Text.F(share, 2))));
        }

        double? uptake = rider.MaxOxygenUptakeMlPerKgMin;
        double J(Sex sex) => 1000 * minutes * Math.Max(0, uptake is { } u ? FuelKernel.KeytelKjPerMin(sex, heartRateBpm, kg, years, u) : FuelKernel.KeytelKjPerMin(sex, heartRateBpm, kg, years));
        return Reading(BySex(rider.Sex, J), uptake is null ? HeartRateLogSd : HeartRateUptakeLogSd, span, uptake is null ? "heart rate" : "heart rate and oxygen uptake", findings, rider.Sex, J);
    }

    /// <summary>Energy of cycling at a power by the leg-cycling equation, at 5 kcal a litre of oxygen.</summary>
    /// <param name="rider">Mass.</param>
    /// <param name="power">Mean power at the pedals, 0 to 1 000 W.</param>
    /// <param name="span">How long; above zero.</param>
    /// <returns>Energy; a finding outside 50 to 200 W.</returns>
    /// <exception cref="ArgumentNullException">No rider.</exception>
    /// <exception cref="ArgumentException">No body mass.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Power or time outside its range.</exception>
    public static EnergyReading FromCycling(Rider rider, Power power, TimeSpan span)
    {
        double watts = Guard.InRange((double)power.Watts, 0, 1000, "W", nameof(power)), minutes = Minutes(span);
        var findings = new List<Finding>();
        (double kg, _, _) = Body(rider, findings, height: false, age: false);
        if (watts is < 50 or > 200)
        {
            findings.Add(new Finding(EffortFindingCodes.CyclingRange, FindingSeverity.Caution, "power", "The leg-cycling equation holds for 50 to 200 W.", new FindingValue("power_w", Text.F(watts, 0))));
        }

        double j = FuelKernel.AcsmLegWattsMlPerKgMin(watts, kg) * kg * minutes * EffortResolver.JoulePerMlOxygen;
        return Reading(j, CyclingLogSd, span, "leg-cycling equation", findings, Sex.Male, null);
    }

    /// <summary>Energy of an activity by its compendium code; cycling and walking rows.</summary>
    /// <param name="rider">Mass.</param>
    /// <param name="code">Five-digit code, such as 1009 (written 01009) for mountain biking in general.</param>
    /// <param name="edition">The edition: values differ.</param>
    /// <param name="span">How long; above zero.</param>
    /// <returns>Energy, resting included.</returns>
    /// <exception cref="ArgumentNullException">No rider.</exception>
    /// <exception cref="ArgumentException">No body mass, or a code that the edition's rows do not hold.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Time not positive.</exception>
    public static EnergyReading FromActivity(Rider rider, int code, CompendiumEdition edition, TimeSpan span)
    {
        Guard.Defined(edition);
        double minutes = Minutes(span), met = Met(code, edition);
        var findings = new List<Finding>();
        (double kg, _, _) = Body(rider, findings, height: false, age: false);
        return Reading(
            met * PaceModel.MetWPerKg * kg * minutes * 60, ActivityLogSd, span,
            string.Create(CultureInfo.InvariantCulture, $"activity {code:D5}, {met} MET, {(edition == CompendiumEdition.Edition2011 ? 2011 : 2024)} edition"), findings, Sex.Male, null);
    }

    /// <summary>Energy by a class of metabolic rate and the body's surface.</summary>
    /// <param name="rider">Mass and height; the surface by Du Bois.</param>
    /// <param name="rate">The class.</param>
    /// <param name="span">How long; above zero.</param>
    /// <returns>Energy.</returns>
    /// <exception cref="ArgumentNullException">No rider.</exception>
    /// <exception cref="ArgumentException">No body mass.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Time not positive.</exception>
    public static EnergyReading FromClass(Rider rider, MetabolicClass rate, TimeSpan span)
    {
        Guard.Defined(rate);
        double minutes = Minutes(span);
        var findings = new List<Finding>();
        (double kg, double m, _) = Body(rider, findings, height: true, age: false);
        return Reading(ClassWPerM2[(int)rate] * SurfaceM2(kg, m) * minutes * 60, ActivityLogSd, span, $"metabolic class {rate}", findings, Sex.Male, null);
    }

    /// <summary>MET of a code in an edition.</summary>
    internal static double Met(int code, CompendiumEdition edition)
    {
        (int Code, double Met)[] table = edition == CompendiumEdition.Edition2011 ? MetTable.Edition2011 : MetTable.Edition2024;
        foreach ((int row, double met) in table)
        {
            if (row == code)
            {
                return met;
            }
        }

        throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Code {code:D5} is no cycling or walking row of the {edition} table ({table.Length} rows)."), nameof(code));
    }

    [Source("du-bois-1916", "body surface [m2]")]
    internal static double SurfaceM2(double kg, double m) => 0.202 * Math.Pow(kg, 0.425) * Math.Pow(m, 0.725);

    private static double Minutes(TimeSpan span)
        => span > TimeSpan.Zero ? span.TotalMinutes : throw new ArgumentOutOfRangeException(nameof(span), span, "span must be above 0 min.");

    [Source("assumption-body", "height 1.72 m and age 40 where they are missing")]
    private static (double Kg, double M, double Years) Body(Rider rider, List<Finding> findings, bool height, bool age = true)
    {
        Guard.NotNull(rider);
        double kg = Si.Kg(rider.Mass), m = Si.M(rider.Height);
        if (double.IsNaN(kg))
        {
            throw new ArgumentException("The rider's body mass is needed (25 to 250 kg).", nameof(rider));
        }

        if (height && double.IsNaN(m))
        {
            m = 1.72;
            findings.Add(new Finding(EffortFindingCodes.BodyAssumed, FindingSeverity.Caution, "rider", "No height is given; 1.72 m is assumed.", new FindingValue("height_m", "1.72")));
        }

        if (age && rider.AgeYears is null)
        {
            findings.Add(new Finding(EffortFindingCodes.BodyAssumed, FindingSeverity.Caution, "rider", "No age is given; 40 years are assumed.", new FindingValue("age_years", "40")));
        }

        return (kg, m, rider.AgeYears ?? 40);
    }

    private static double BySex(Sex sex, Func<Sex, double> j) => sex == Sex.Unstated ? 0.5 * (j(Sex.Male) + j(Sex.Female)) : j(sex);

    private static EnergyReading Reading(double joules, double logSd, TimeSpan span, string method, List<Finding> findings, Sex sex, Func<Sex, double>? bySex)
    {
        double k = Math.Exp(NormalKernel.Z90 * logSd), low = joules / k, high = joules * k;
        if (sex == Sex.Unstated && bySex is not null)
        {
            low = Math.Min(low, Math.Min(bySex(Sex.Male), bySex(Sex.Female)) / k);
            high = Math.Max(high, Math.Max(bySex(Sex.Male), bySex(Sex.Female)) * k);
        }

        return new EnergyReading(new(UnitsNet.Energy.FromJoules(joules), UnitsNet.Energy.FromJoules(low), UnitsNet.Energy.FromJoules(high)), span, method, findings);
    }
}
