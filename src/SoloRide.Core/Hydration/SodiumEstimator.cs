using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Sodium lost with sweat: concentration with its spread between people, its rise with the sweat rate, acclimatisation.</summary>
/// <remarks>
/// No claim is made that salt prevents or cures cramp, heat illness or low blood sodium; drinking no more than thirst asks prevents the
/// last. An own sweat test replaces the pooled mean. Sources: baker-2016, barnes-2019, buono-2007. Thread-safe.
/// </remarks>
[Entry]
public static class SodiumEstimator
{
    /// <summary>P10 to P90 of an own test from day to day [share].</summary>
    [Source("assumption-own-sodium-spread", "day-to-day spread of a sweat test")]
    internal const double OwnSpreadFraction = 0.2;

    /// <summary>Estimates the loss per hour.</summary>
    /// <param name="rider">Own sweat sodium and heat acclimatisation are used.</param>
    /// <param name="sweatRate">Whole-body sweat rate; 0 to 6 L/h.</param>
    /// <returns>Concentration, loss and findings.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The sweat rate is negative or above 6 L/h.</exception>
    public static SodiumEstimate Estimate(Rider rider, Estimate<VolumeFlow> sweatRate)
    {
        Guard.NotNull(rider);
        Guard.NotNull(sweatRate);
        double low = Guard.InRange(sweatRate.Low.LitersPerHour, 0, 6, "L/h", nameof(sweatRate));
        double typical = sweatRate.Typical.LitersPerHour;
        double high = Guard.InRange(sweatRate.High.LitersPerHour, 0, 6, "L/h", nameof(sweatRate));
        var findings = new List<Finding>(1);
        double middle, below, above;
        if (rider.SweatSodiumMmolPerL is { } own)
        {
            middle = own;
            below = above = own * OwnSpreadFraction;
        }
        else
        {
            middle = SodiumKernel.ConcentrationMmolPerL(typical, rider.HeatAcclimatised);
            below = middle - SodiumKernel.ConcentrationMmolPerL(typical, rider.HeatAcclimatised, -NormalKernel.Z90);
            above = SodiumKernel.ConcentrationMmolPerL(typical, rider.HeatAcclimatised, NormalKernel.Z90) - middle;
            findings.Add(new Finding(HydrationFindingCodes.SodiumPrior, FindingSeverity.Note, "Rider.SweatSodiumMmolPerL",
                "No sweat test: the spread of athletes stands in; people differ by a factor of four."));
        }

        // Rate and concentration vary apart: their relative deviations add in square.
        double loss = typical * middle;
        double down = loss > 0 ? loss * Math.Max(0, 1 - Math.Sqrt(Square((typical - low) / typical) + Square(below / middle))) : 0;
        double up = loss > 0 ? loss * (1 + Math.Sqrt(Square((high - typical) / typical) + Square(above / middle))) : high * (middle + above);
        return new SodiumEstimate(
            new Estimate<Molarity>(Millimolar(middle), Millimolar(middle - below), Millimolar(middle + above)),
            new Estimate<MassFlow>(PerHour(loss), PerHour(down), PerHour(up)),
            findings);
    }

    private static double Square(double x) => x * x;

    private static Molarity Millimolar(double mmolPerL) => Molarity.FromMillimolesPerLiter(mmolPerL);

    private static MassFlow PerHour(double mmolPerH) => MassFlow.FromGramsPerHour(Sodium.MmolToMg(mmolPerH) / 1000);
}
