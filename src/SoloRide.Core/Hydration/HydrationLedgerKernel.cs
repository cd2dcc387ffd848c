using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Water and sodium along a timeline; allocation-free, for sampling as well.</summary>
internal static class HydrationLedgerKernel
{
    [Source("edelman-1958", "serum sodium from exchangeable cations and body water: slope 1.11, offset -25.6 mmol/L")]
    public const double EdelmanSlope = 1.11, EdelmanOffsetMmolPerL = -25.6;

    [Source("eah-2015", "usual serum sodium before exercise")]
    public const double UsualSerumMmolPerL = 140;

    [Source("assumption-body-water", "body water as a share of body mass")]
    public const double BodyWaterFraction = 0.6;

    private const double DayH = 24;

    /// <summary>
    /// Drinking along the timeline. What is not yet drunk (NaN in <paramref name="drunkL"/>) is planned: a share of the loss of the step,
    /// or the wanted volume, but never so much that all intake exceeds all loss so far, nor above the hourly rate, nor above the daily
    /// maximum in any 24 hours, nor more than is in hand.
    /// </summary>
    /// <param name="hours">Length of each step.</param>
    /// <param name="lossLph">Loss rate in each step.</param>
    /// <param name="availableL">Water in hand in each step; infinite for enough.</param>
    /// <param name="wantedL">Volume wanted in each step; NaN: to thirst.</param>
    /// <param name="drunkL">Volume really drunk; NaN: ahead.</param>
    /// <param name="thirstFraction">Share of the loss that thirst replaces.</param>
    /// <param name="hourlyMaximumL">Most in an hour.</param>
    /// <param name="dailyMaximumL">Most in 24 hours.</param>
    /// <param name="intakeL">Receives the intake of each step.</param>
    public static void Drink(
        ReadOnlySpan<double> hours,
        ReadOnlySpan<double> lossLph,
        ReadOnlySpan<double> availableL,
        ReadOnlySpan<double> wantedL,
        ReadOnlySpan<double> drunkL,
        double thirstFraction,
        double hourlyMaximumL,
        double dailyMaximumL,
        Span<double> intakeL)
    {
        double loss = 0, intake = 0, window = 0, start = 0, firstEnd = 0;
        int first = 0;
        for (int k = 0; k < hours.Length; k++)
        {
            double h = hours[k], stepLoss = lossLph[k] * h;

            // Whole earlier steps that end within the last 24 h before this step begins: at least what any 24 h ending in this step hold.
            while (first < k && firstEnd + hours[first] <= start - DayH)
            {
                firstEnd += hours[first];
                window -= intakeL[first];
                first++;
            }

            loss += stepLoss;
            double x;
            if (!double.IsNaN(drunkL[k]))
            {
                x = drunkL[k];
            }
            else
            {
                x = double.IsNaN(wantedL[k]) ? thirstFraction * stepLoss : wantedL[k];
                x = Math.Min(x, hourlyMaximumL * Math.Min(h, DayH));
                x = Math.Min(x, dailyMaximumL - window);
                x = Math.Min(x, loss - intake);
                x = Math.Max(0, Math.Min(x, availableL[k]));
            }

            intakeL[k] = x;
            intake += x;
            window += x;
            start += h;
        }
    }

    /// <summary>Serum sodium after water and sodium balances, from a usual start; an indicator, no diagnosis.</summary>
    /// <param name="massKg">Body mass.</param>
    /// <param name="waterBalanceL">Intake less loss.</param>
    /// <param name="sodiumBalanceMmol">Intake less loss.</param>
    public static double SerumSodiumMmolPerL(double massKg, double waterBalanceL, double sodiumBalanceMmol)
    {
        double water = BodyWaterFraction * massKg;
        double cations = (UsualSerumMmolPerL - EdelmanOffsetMmolPerL) / EdelmanSlope * water;
        return (EdelmanSlope * (cations + sodiumBalanceMmol) / (water + waterBalanceL)) + EdelmanOffsetMmolPerL;
    }
}
