using MathNet.Numerics.Distributions;
using MathNet.Numerics.Statistics;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>The rider's own sweat rate, learnt from weighed rides.</summary>
/// <remarks>
/// A weighed ride beats any equation. With the conditions of each ride the ratio to the models' typical rate is learnt, so that it
/// carries over to other weather: ratios are averaged in logarithms and drawn toward 1 by a prior as strong as the models' own spread,
/// the less the more rides there are. Breath and fuel burnt (some 0.1 kg/h) count as sweat: the rate errs upward. Thread-safe.
/// </remarks>
[Entry]
public sealed record SweatCalibration
{
    [Source("assumption-rider-spread", "spread of riders around the models, natural logarithm")]
    private const double RiderSpread = 0.4;

    [Source("assumption-rider-spread", "spread of one rider from ride to ride, natural logarithm")]
    private const double RideSpread = 0.2;

    private const double LeastLph = 0.02;
    private const double MostLph = 4;
    private const int FewRidesBelow = 3;

    private SweatCalibration(Estimate<VolumeFlow> rate, Estimate<Ratio>? modelFactor, int used, IReadOnlyList<Finding> findings)
    {
        Rate = rate;
        ModelFactor = modelFactor;
        RidesUsed = used;
        Findings = findings;
    }

    /// <summary>Own rate over the weighed rides, as another ride of that kind would give it.</summary>
    public Estimate<VolumeFlow> Rate { get; }

    /// <summary>Own rate as a share of the models' typical rate, as another ride would give it; null unless rides carried their conditions.</summary>
    public Estimate<Ratio>? ModelFactor { get; }

    /// <summary>Rides that were used.</summary>
    public int RidesUsed { get; }

    /// <summary>Rides left out, and why; few rides.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Learns from weighed rides.</summary>
    /// <param name="rides">At least one ride that gives a rate between 0.02 and 4 L/h; others are left out with a finding.</param>
    /// <returns>The calibration.</returns>
    /// <exception cref="ArgumentException">No ride can be used.</exception>
    public static SweatCalibration From(IReadOnlyList<WeighedRide> rides)
    {
        Guard.NotNull(rides);
        var findings = new List<Finding>();
        var logs = new List<double>(rides.Count);
        var ratios = new List<double>(rides.Count);
        for (int i = 0; i < rides.Count; i++)
        {
            WeighedRide ride = Guard.NotNull(rides[i], $"rides[{i}]");
            double lph = ride.SweatRate.LitersPerHour;
            if (!(lph >= LeastLph && lph <= MostLph))
            {
                findings.Add(new Finding(HydrationFindingCodes.RideLeftOut, FindingSeverity.Caution, $"rides[{i}]",
                    $"Left out: its masses and volumes give {Text.F(lph, 2)} L/h; allowed are {Text.F(LeastLph, 2)} to {Text.F(MostLph, 0)} L/h. Check the weighing."));
                continue;
            }

            logs.Add(Math.Log(lph));
            if (ride.Conditions is { } conditions)
            {
                SweatConditions bare = conditions with { Rider = conditions.Rider with { SweatRate = null } };
                double model = SweatRateEstimator.Estimate(bare).Rate.Typical.LitersPerHour;
                if (model > LeastLph)
                {
                    ratios.Add(Math.Log(lph / model));
                }
            }
        }

        if (logs.Count == 0)
        {
            throw new ArgumentException("No weighed ride can be used: at least one with a rate between 0.02 and 4 L/h is needed.", nameof(rides));
        }

        if (logs.Count < FewRidesBelow)
        {
            findings.Add(new Finding(HydrationFindingCodes.FewRides, FindingSeverity.Note, "rides",
                $"{logs.Count} weighed ride(s): the range stays wide. Weigh yourself before and after more rides, in different heat."));
        }

        // Rate: predictive spread for one more ride of the same kind.
        double mean = logs.Mean();
        double sd = logs.Count >= FewRidesBelow ? Math.Max(RideSpread, logs.StandardDeviation()) : RideSpread;
        double z = Normal.InvCDF(0, 1, 0.9) * sd * Math.Sqrt(1 + (1.0 / logs.Count));
        var rate = new Estimate<VolumeFlow>(Lph(mean), Lph(mean - z), Lph(mean + z));

        Estimate<Ratio>? factor = null;
        if (ratios.Count > 0)
        {
            double rideVariance = RideSpread * RideSpread;
            if (ratios.Count >= FewRidesBelow)
            {
                rideVariance = Math.Max(rideVariance, ratios.Variance());
            }

            double precision = (1 / (RiderSpread * RiderSpread)) + (ratios.Count / rideVariance);
            double centre = ratios.Sum() / rideVariance / precision;
            double spread = Normal.InvCDF(0, 1, 0.9) * Math.Sqrt((1 / precision) + rideVariance);
            factor = new Estimate<Ratio>(Share(centre), Share(centre - spread), Share(centre + spread));
        }

        return new SweatCalibration(rate, factor, logs.Count, findings);
    }

    internal static SweatCalibration Restored(Estimate<VolumeFlow> rate, Estimate<Ratio>? modelFactor, int used, IReadOnlyList<Finding> findings) => new(rate, modelFactor, used, findings);

    private static VolumeFlow Lph(double log) => VolumeFlow.FromLitersPerHour(Math.Exp(log));

    private static Ratio Share(double log) => Ratio.FromDecimalFractions(Math.Exp(log));
}
