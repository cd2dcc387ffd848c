using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Body water and sodium along a ride, with alarms. Drink to thirst: the plan carries water, it forces none down.</summary>
/// <remarks>
/// Planned intake never exceeds the typical loss so far, nor the hourly and daily maxima. Carry water by the upper end of the loss; drink
/// by thirst. Over-drinking kills too: alarms are raised when more is drunk than lost and when the balance points to diluted blood. The
/// losses of all steps are taken to be high or low together. Urine is not counted. Not for medical decisions. Thread-safe.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed class HydrationLedger
{
    /// <summary>Rides shorter than this need no sodium beyond what is eaten.</summary>
    [Source("assumption-sodium-policy", "share of the loss, and hours below which none is carried")]
    private const double NoSodiumBelowH = 4;

    private readonly double _capsuleMmol;
    private readonly double _sodiumCarryFraction;

    private HydrationLedger(IReadOnlyList<HydrationLedgerEntry> entries, IReadOnlyList<Finding> findings, double capsuleMmol, double sodiumCarryFraction)
    {
        Entries = entries;
        Findings = findings;
        _capsuleMmol = capsuleMmol;
        _sodiumCarryFraction = sodiumCarryFraction;
    }

    /// <summary>What the rider reads beside every figure of drinking.</summary>
    public static string Advice { get; } =
        "Drink to thirst. The figures say what to carry, not what to force down; never drink more than you sweat.";

    /// <summary>One entry per step.</summary>
    public IReadOnlyList<HydrationLedgerEntry> Entries { get; }

    /// <summary>Alarms and assumptions.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The ledger at the end.</summary>
    public HydrationLedgerEntry Last => Entries[^1];

    /// <summary>Sodium lost and not replaced so far, from the typical loss; none when more was taken than lost. No dose: food eaten covers it on most rides.</summary>
    public Mass SodiumOpen => Mass.FromMilligrams(Math.Max(0, Last.SodiumLost.Typical.Milligrams - Last.SodiumTaken.Mass.Milligrams));

    /// <summary>Sodium to carry in food, drink and capsules together: none below four hours, where meals cover it; else a share of the typical loss. A policy, no dose.</summary>
    public Mass SodiumToCarry => Last.At.TotalHours < NoSodiumBelowH ? Mass.Zero : Mass.FromMilligrams(_sodiumCarryFraction * Last.SodiumLost.Typical.Milligrams);

    /// <summary>Water that the capsules taken ask for, so that they reach the gut no saltier than a sports drink (30 mmol/L, acsm-2007); carry it on top, drink it to thirst.</summary>
    public Volume WaterForCapsules => Volume.FromLiters(_capsuleMmol / HydrationLimits.DrinkSodiumMostMmolPerL);

    /// <summary>Runs the ledger.</summary>
    /// <param name="rider">Mass, sweat sodium and acclimatisation are used.</param>
    /// <param name="steps">At least one step, in order of time.</param>
    /// <param name="options">Limits and switches; null for the published defaults.</param>
    /// <returns>The ledger.</returns>
    /// <exception cref="ArgumentException">There are no steps.</exception>
    public static HydrationLedger Run(Rider rider, IReadOnlyList<HydrationStep> steps, HydrationLedgerOptions? options = null)
    {
        Guard.NotNull(rider);
        Guard.NotNull(steps);
        if (steps.Count == 0)
        {
            throw new ArgumentException("The ledger needs at least one step.", nameof(steps));
        }

        options ??= new HydrationLedgerOptions();
        var findings = new List<Finding>
        {
            new(HydrationFindingCodes.DrinkToThirst, FindingSeverity.Note, "drinking", Advice),
        };
        double mass = Si.Kg(rider.Mass);
        if (double.IsNaN(mass))
        {
            mass = SweatConstants.PriorMassKg;
            findings.Add(new Finding(HydrationFindingCodes.BodyAssumed, FindingSeverity.Note, "Rider.Mass",
                $"Unknown mass counts as {Text.F(mass, 0)} kg."));
        }

        int n = steps.Count;
        double gut = options.GutIllness == GutIllness.None || double.IsNaN(options.GutLph) ? 0 : options.GutLph;
        double[] hours = new double[n], loss = new double[n], available = new double[n], wanted = new double[n], drunk = new double[n], intake = new double[n];
        for (int k = 0; k < n; k++)
        {
            HydrationStep s = Guard.NotNull(steps[k], $"steps[{k}]");
            hours[k] = s.Duration.TotalHours;
            loss[k] = s.SweatRate.Typical.LitersPerHour + gut;
            available[k] = s.AvailableL;
            wanted[k] = s.PlannedL;
            drunk[k] = s.DrunkL;
        }

        HydrationLedgerKernel.Drink(hours, loss, available, wanted, drunk, options.ThirstFraction, options.HourlyL, options.DailyL, intake);
        var entries = new HydrationLedgerEntry[n];
        double lowL = 0, typL = 0, highL = 0, drunkL = 0, naLow = 0, naTyp = 0, naHigh = 0, naTaken = 0, capsules = 0, cut = 0;
        TimeSpan at = TimeSpan.Zero;
        (double L, int Step) over = (0, -1), possible = (0, -1);
        (double Serum, int Step) dilute = (double.PositiveInfinity, -1);
        int deficitStep = -1, hourlyStep = -1;
        for (int k = 0; k < n; k++)
        {
            HydrationStep s = steps[k];
            SodiumEstimate sodium = SodiumEstimator.Estimate(rider, s.SweatRate);
            at += s.Duration;
            lowL += (s.SweatRate.Low.LitersPerHour + gut) * hours[k];
            typL += loss[k] * hours[k];
            highL += (s.SweatRate.High.LitersPerHour + gut) * hours[k];
            drunkL += intake[k];
            naLow += Mmol(sodium.LossRate.Low) * hours[k];
            naTyp += Mmol(sodium.LossRate.Typical) * hours[k];
            naHigh += Mmol(sodium.LossRate.High) * hours[k];
            naTaken += (s.DrinkSodium.MillimolesPerLiter * intake[k]) + s.Eaten.Mmol + s.Capsules.Mmol;
            capsules += s.Capsules.Mmol;
            bool recorded = !double.IsNaN(drunk[k]);
            if (!recorded && !double.IsNaN(wanted[k]))
            {
                cut += Math.Max(0, wanted[k] - intake[k]);
            }

            if (recorded && intake[k] > options.HourlyL * Math.Max(1, hours[k]) && hourlyStep < 0)
            {
                hourlyStep = k;
            }

            if (drunkL - typL > Math.Max(1e-9, over.L))
            {
                over = (drunkL - typL, k);
            }

            if (drunkL - lowL > Math.Max(HydrationLimits.UsualGainFraction * mass, possible.L))
            {
                possible = (drunkL - lowL, k);
            }

            double serum = HydrationLedgerKernel.SerumSodiumMmolPerL(mass, drunkL - typL, naTaken - naTyp);
            if (serum < HydrationLimits.LowSerumSodiumMmolPerL && serum < dilute.Serum)
            {
                dilute = (serum, k);
            }

            if (deficitStep < 0 && highL - drunkL > options.DeficitAlarmFraction * mass)
            {
                deficitStep = k;
            }

            entries[k] = new HydrationLedgerEntry(
                at,
                Volume.FromLiters(intake[k]),
                recorded,
                new Estimate<Volume>(Volume.FromLiters(typL), Volume.FromLiters(lowL), Volume.FromLiters(highL)),
                Volume.FromLiters(drunkL),
                new Estimate<Volume>(Volume.FromLiters(typL - drunkL), Volume.FromLiters(lowL - drunkL), Volume.FromLiters(highL - drunkL)),
                new Estimate<Ratio>(Share(typL), Share(lowL), Share(highL)),
                new Estimate<Mass>(Milligrams(naTyp), Milligrams(naLow), Milligrams(naHigh)),
                Sodium.FromMass(Milligrams(naTaken)));

            Ratio Share(double lostL) => Ratio.FromDecimalFractions((lostL - drunkL) / mass);
        }

        if (cut > 1e-9)
        {
            findings.Add(new Finding(HydrationFindingCodes.IntakeCut, FindingSeverity.Warning, "planned drinking",
                $"Planned drinking was cut by {Text.F(cut, 2)} L in all: a plan never drinks more than is lost, nor more than "
                + $"{Text.F(options.HourlyL, 2)} L an hour and {Text.F(options.DailyL, 1)} L a day, nor what is not in hand.",
                new FindingValue("cut_l", Text.F(cut, 3))));
        }

        if (over.Step >= 0)
        {
            findings.Add(new Finding(HydrationFindingCodes.OverDrinking, FindingSeverity.Warning, Where(over.Step),
                $"More drunk than lost: {Text.F(over.L, 2)} L above the typical loss. Stop drinking until thirsty. Over-drinking can kill; "
                + "headache, nausea, confusion or a gain of weight need emergency help.",
                new FindingValue("excess_l", Text.F(over.L, 3))));
        }
        else if (possible.Step >= 0)
        {
            findings.Add(new Finding(HydrationFindingCodes.OverDrinking, FindingSeverity.Caution, Where(possible.Step),
                $"If you sweat little, this is {Text.F(possible.L, 2)} L more than you lose. Drink only to thirst.",
                new FindingValue("excess_l", Text.F(possible.L, 3))));
        }

        if (hourlyStep >= 0)
        {
            findings.Add(new Finding(HydrationFindingCodes.OverDrinking, FindingSeverity.Warning, Where(hourlyStep),
                $"More than {Text.F(options.HourlyL, 2)} L drunk in an hour: faster than the published maximum."));
        }

        if (dilute.Step >= 0)
        {
            findings.Add(new Finding(HydrationFindingCodes.Dilution, FindingSeverity.Warning, Where(dilute.Step),
                $"The balance of water and sodium points to diluted blood (about {Text.F(dilute.Serum, 0)} mmol/L sodium; below "
                + $"{Text.F(HydrationLimits.LowSerumSodiumMmolPerL, 0)} is an emergency when ill). Salt alone does not prevent it: drink less. Headache, vomiting or confusion: emergency help.",
                new FindingValue("serum_sodium_mmol_per_l", Text.F(dilute.Serum, 1))));
        }

        if (deficitStep >= 0)
        {
            findings.Add(new Finding(HydrationFindingCodes.Deficit, FindingSeverity.Warning, Where(deficitStep),
                $"At the upper end of sweating the deficit passes {Text.F(options.DeficitAlarmFraction * 100, 1)} % of body mass: more water, shade, a slower pace or a shorter ride."));
        }

        if (options.GutIllness != GutIllness.None)
        {
            findings.Add(new Finding(HydrationFindingCodes.GutIllness, FindingSeverity.Warning, "GutIllness",
                (double.IsNaN(options.GutLph)
                    ? "Vomiting or diarrhoea: water and sodium are lost that this ledger does not count; every deficit is a lower bound. "
                    : $"Vomiting or diarrhoea: {Text.F(options.GutLph, 2)} L/h are added as the rider judges it; sodium lost with it is not counted. ")
                + "Turn back while it is easy, take the shortest way out, and get medical advice; repeated vomiting or confusion needs emergency help."));
        }

        if (naTaken > 0)
        {
            findings.Add(new Finding(HydrationFindingCodes.SaltNoCure, FindingSeverity.Note, "sodium",
                "Salt counts as sodium and nothing else: it is not shown to prevent or cure cramp, and never makes up for less water carried."
                + (capsules > 0 ? $" The capsules ask for {Text.F(capsules / HydrationLimits.DrinkSodiumMostMmolPerL, 2)} L of water on top." : "")));
        }

        return new HydrationLedger(entries, findings, capsules, options.SodiumCarryFraction);

        string Where(int step) => "at " + Text.Span(entries[step].At);
    }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = HydrationCautions.All;

    /// <summary>The end of the ledger in lines, with the advice and the cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        HydrationLedgerEntry e = Last;
        var lines = new List<string>
        {
            $"Over {Text.Span(e.At)}: sweat {e.WaterLost}, drunk {Text.F(e.WaterDrunk.Liters, 2)} L, "
                + $"deficit {Text.F(e.DeficitOfBodyMass.Typical.Percent, 1)} % of body mass ({Text.F(e.DeficitOfBodyMass.Low.Percent, 1)} to {Text.F(e.DeficitOfBodyMass.High.Percent, 1)}).",
            $"Sodium lost {Text.F(e.SodiumLost.Typical.Grams, 1)} g ({Text.F(e.SodiumLost.Low.Grams, 1)} to {Text.F(e.SodiumLost.High.Grams, 1)}), taken {Text.F(e.SodiumTaken.Mass.Grams, 1)} g.",
        };
        lines.AddRange(Findings.Where(f => f.Severity >= FindingSeverity.Caution).Select(f => f.ToString()));
        lines.Add(Advice);
        lines.AddRange(HydrationCautions.Own);
        lines.Add(SoloRide.Cautions.Text);
        return string.Join('\n', lines);
    }

    private static double Mmol(MassFlow sodium) => Sodium.MgToMmol(sodium.GramsPerHour * 1000);

    private static Mass Milligrams(double mmol) => Mass.FromMilligrams(Sodium.MmolToMg(mmol));
}
