using MathNet.Numerics.LinearAlgebra;
using UnitsNet;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// Maximum of the posterior of log power and log technical speed from log leg times. Legs of a ride share a ride effect; both variances
/// are learned and shrunk. Leave-one-ride-out is computed on the last linearisation.
/// </summary>
[Source("derived-map-calibration", "model")]
internal static class CalibrationFit
{
    [Source("assumption-calibration", "prior of power is at least this wide: stated watts do not cover drag and rolling")]
    private const double NarrowestPowerLogSd = 0.15;

    [Source("assumption-calibration", "the prior of the variance between rides counts as this many rides")]
    private const double PriorWeight = 1;

    [Source("assumption-calibration", "the prior of the legs' own scatter counts as this many legs: it is the trail's more than the rider's")]
    public const double ScatterPriorWeight = 10;

    [Source("assumption-calibration", "legs never scatter less than this share of the prior variance: the model itself is not exact")]
    private const double SmallestNoiseScale = 0.05;

    private const double Settled = 0.002, LongestMove = 0.25;

    private const int FixedRounds = 4;

    private const int Rounds = 20;

    private const double Step = 1e-3;

    public static PaceCalibration Run(PaceModel model, IReadOnlyList<TimedLeg> timed, Func<TimedLeg, StepConditions>? conditions)
    {
        var before = new Dictionary<string, TimeSpan>(StringComparer.Ordinal);
        var legs = new LegPhysics[timed.Count];
        for (int i = 0; i < legs.Length; i++)
        {
            TimeSpan done = before.GetValueOrDefault(timed[i].RideId);
            legs[i] = new LegPhysics(model, timed[i], conditions?.Invoke(timed[i]) ?? StepConditions.Default, done);
            before[timed[i].RideId] = done + timed[i].Moving;
        }

        string[] rides = [.. timed.Select(l => l.RideId).Distinct(StringComparer.Ordinal)];
        int[] rideOf = [.. timed.Select(l => Array.IndexOf(rides, l.RideId))];
        int[] seen = [.. Enumerable.Range(0, TrailPriors.Difficulties).Where(d => legs.Any(l => l.Has((TrailDifficulty)(d - 1))))];
        int n = legs.Length, p = 1 + seen.Length;
        double[] priorSd = new double[p];
        priorSd[0] = Math.Max(NarrowestPowerLogSd, model.Effort.LogSd);
        for (int k = 1; k < p; k++)
        {
            var difficulty = (TrailDifficulty)(seen[k - 1] - 1);
            priorSd[k] = Math.Max(0.02, Math.Log(model.Options.Calibration?.TechnicalGsdFactor(difficulty) ?? model.Options.Cap(difficulty).GsdFactor));
        }

        double tau0 = model.RideLogSd * model.RideLogSd, tau = tau0, kappa = 1;
        double[] theta = new double[p];
        Matrix<double> jacobian = Matrix<double>.Build.Dense(n, p);
        double[] residual = new double[n];
        double[] start = new double[n];
        Matrix<double> normal = Matrix<double>.Build.Dense(p, p);
        for (int round = 0; round < Rounds; round++)
        {
            Linearise(legs, seen, theta, residual, jacobian);
            if (round == 0)
            {
                residual.CopyTo(start, 0);
            }

            (normal, Vector<double> right) = Normal(jacobian, residual, theta, legs, rideOf, rides.Length, priorSd, tau, kappa, leftOut: -1);
            Vector<double> delta = normal.Cholesky().Solve(right);
            double moved = 0, oldTau = tau, oldKappa = kappa;
            for (int k = 0; k < p; k++)
            {
                theta[k] = Math.Clamp(theta[k] + Math.Clamp(delta[k], -LongestMove, LongestMove), -2, 2);
                moved = Math.Max(moved, Math.Abs(delta[k]));
            }

            // The parameters settle under the prior variances first; learned too early, the ride effects would take what is the rider's.
            if (round < FixedRounds)
            {
                continue;
            }

            Linearise(legs, seen, theta, residual, null);
            (tau, kappa) = Variances(jacobian, residual, normal.Inverse(), legs, rideOf, rides.Length, tau0, tau, kappa);
            if (moved < Settled && Math.Abs(tau - oldTau) < Settled * oldTau && Math.Abs(kappa - oldKappa) < Settled * oldKappa)
            {
                break;
            }
        }

        Linearise(legs, seen, theta, residual, jacobian);
        (normal, _) = Normal(jacobian, residual, theta, legs, rideOf, rides.Length, priorSd, tau, kappa, -1);
        Matrix<double> covariance = normal.Inverse();
        (double? heldOut, double? prior) = HeldOut(jacobian, residual, start, theta, legs, rideOf, rides.Length, priorSd, tau, kappa);
        (double? stops, double? stopGsd) = Stops(timed, rides, rideOf, model);
        return new PaceCalibration
        {
            SustainedPower = Power.FromWatts(Math.Clamp(model.Effort.PowerW * Math.Exp(theta[0]), 10, 1000)),
            PowerGsdFactor = Gsd(Math.Sqrt(covariance[0, 0])),
            Technique =
            [
                .. Enumerable.Range(1, p - 1).Select(k =>
                {
                    var difficulty = (TrailDifficulty)(seen[k - 1] - 1);
                    double known = model.Options.Calibration?.TechnicalFactor(difficulty) ?? 1;
                    return new TechnicalSkill(difficulty, Math.Clamp(known * Math.Exp(theta[k]), 0.1, 10), Gsd(Math.Sqrt(covariance[k, k])));
                }),
            ],
            RideGsdFactor = Gsd(Math.Sqrt(tau)),
            ScatterFactor = Math.Clamp(Math.Sqrt(kappa) * (model.Options.Calibration?.ScatterFactor ?? 1), 0.1, 10),
            StopMinutesPerHour = stops,
            StopGsdFactor = stopGsd,
            Rides = rides.Length,
            Legs = n,
            HeldOutErrorFraction = heldOut,
            PriorErrorFraction = prior,
        };
    }

    private static double Gsd(double logSd) => Math.Min(3, Math.Exp(logSd));

    private static void Linearise(LegPhysics[] legs, int[] seen, double[] theta, double[] residual, Matrix<double>? jacobian)
    {
        double[] technique = new double[TrailPriors.Difficulties];
        for (int k = 0; k < seen.Length; k++)
        {
            technique[seen[k]] = theta[k + 1];
        }

        for (int i = 0; i < legs.Length; i++)
        {
            residual[i] = legs[i].LogObserved - legs[i].LogTime(theta[0], technique);
            if (jacobian is null)
            {
                continue;
            }

            jacobian[i, 0] = (legs[i].LogTime(theta[0] + Step, technique) - legs[i].LogTime(theta[0] - Step, technique)) / (2 * Step);
            for (int k = 0; k < seen.Length; k++)
            {
                double at = technique[seen[k]];
                if (!legs[i].Has((TrailDifficulty)(seen[k] - 1)))
                {
                    jacobian[i, k + 1] = 0;
                    continue;
                }

                technique[seen[k]] = at + Step;
                double up = legs[i].LogTime(theta[0], technique);
                technique[seen[k]] = at - Step;
                double down = legs[i].LogTime(theta[0], technique);
                technique[seen[k]] = at;
                jacobian[i, k + 1] = (up - down) / (2 * Step);
            }
        }
    }

    /// <summary>Normal equations with the ride effect integrated out (rank-one update of each ride's diagonal).</summary>
    private static (Matrix<double> Normal, Vector<double> Right) Normal(
        Matrix<double> jacobian, double[] residual, double[] theta, LegPhysics[] legs, int[] rideOf, int rides, double[] priorSd, double tau, double kappa, int leftOut)
    {
        int p = theta.Length, n = legs.Length;
        Matrix<double> a = Matrix<double>.Build.Dense(p, p);
        Vector<double> b = Vector<double>.Build.Dense(p);
        for (int k = 0; k < p; k++)
        {
            double w = 1 / (priorSd[k] * priorSd[k]);
            a[k, k] = w;
            b[k] = -w * theta[k];
        }

        double[] weight = new double[rides], sumR = new double[rides];
        double[,] sumJ = new double[rides, p];
        for (int i = 0; i < n; i++)
        {
            if (rideOf[i] == leftOut)
            {
                continue;
            }

            double w = 1 / (kappa * legs[i].LogSd * legs[i].LogSd);
            weight[rideOf[i]] += w;
            sumR[rideOf[i]] += w * residual[i];
            for (int k = 0; k < p; k++)
            {
                double jk = jacobian[i, k];
                sumJ[rideOf[i], k] += w * jk;
                b[k] += w * jk * residual[i];
                for (int m = 0; m < p; m++)
                {
                    a[k, m] += w * jk * jacobian[i, m];
                }
            }
        }

        for (int r = 0; r < rides; r++)
        {
            double shrink = tau / (1 + (tau * weight[r]));
            for (int k = 0; k < p; k++)
            {
                b[k] -= shrink * sumJ[r, k] * sumR[r];
                for (int m = 0; m < p; m++)
                {
                    a[k, m] -= shrink * sumJ[r, k] * sumJ[r, m];
                }
            }
        }

        return (a, b);
    }

    /// <summary>
    /// Variance between rides and the scale of leg noise, both shrunk towards their priors: expected squares under the joint posterior of
    /// parameters and ride effects, so that what few legs leave open is not taken for calm.
    /// </summary>
    [Source("derived-map-calibration", "variances by expected squares")]
    private static (double Tau, double Kappa) Variances(
        Matrix<double> jacobian, double[] residual, Matrix<double> covariance, LegPhysics[] legs, int[] rideOf, int rides, double tau0, double tau, double kappa)
    {
        int p = covariance.RowCount;
        double[] weight = new double[rides], effect = new double[rides], variance = new double[rides];
        Vector<double>[] shared = [.. Enumerable.Range(0, rides).Select(_ => Vector<double>.Build.Dense(p))];
        for (int i = 0; i < legs.Length; i++)
        {
            double w = 1 / (kappa * legs[i].LogSd * legs[i].LogSd);
            weight[rideOf[i]] += w;
            effect[rideOf[i]] += w * residual[i];
            shared[rideOf[i]] += w * jacobian.Row(i);
        }

        double between = 0, within = 0;
        for (int r = 0; r < rides; r++)
        {
            double d = weight[r] + (1 / tau);
            effect[r] /= d;
            shared[r] = covariance * shared[r] / d;
            variance[r] = (1 / d) + (Moment(r) / d);
            between += (effect[r] * effect[r]) + variance[r];
        }

        for (int i = 0; i < legs.Length; i++)
        {
            int r = rideOf[i];
            Vector<double> row = jacobian.Row(i);
            double e = residual[i] - effect[r], open = Math.Max(0, (row * (covariance * row)) - (2 * (row * shared[r])) + variance[r]);
            within += ((e * e) + open) / (legs[i].LogSd * legs[i].LogSd);
        }

        return (((PriorWeight * tau0) + between) / (PriorWeight + rides), Math.Max((ScatterPriorWeight + within) / (ScatterPriorWeight + legs.Length), SmallestNoiseScale));

        double Moment(int r)
        {
            double sum = 0;
            for (int i = 0; i < legs.Length; i++)
            {
                sum += rideOf[i] == r ? (jacobian.Row(i) * shared[r]) / (kappa * legs[i].LogSd * legs[i].LogSd) : 0;
            }

            return sum;
        }
    }

    private static (double? HeldOut, double? Prior) HeldOut(
        Matrix<double> jacobian, double[] residual, double[] start, double[] theta, LegPhysics[] legs, int[] rideOf, int rides, double[] priorSd, double tau, double kappa)
    {
        if (rides < 2)
        {
            return (null, null);
        }

        double[] error = new double[rides], prior = new double[rides];
        for (int r = 0; r < rides; r++)
        {
            (Matrix<double> a, Vector<double> b) = Normal(jacobian, residual, theta, legs, rideOf, rides, priorSd, tau, kappa, r);
            Vector<double> delta = a.Cholesky().Solve(b);
            double observed = 0, predicted = 0, before = 0;
            for (int i = 0; i < legs.Length; i++)
            {
                if (rideOf[i] != r)
                {
                    continue;
                }

                double shift = 0;
                for (int k = 0; k < theta.Length; k++)
                {
                    shift += jacobian[i, k] * delta[k];
                }

                double seconds = Math.Exp(legs[i].LogObserved);
                observed += seconds;
                predicted += seconds * Math.Exp(shift - residual[i]);
                before += seconds * Math.Exp(-start[i]);
            }

            error[r] = Math.Abs((predicted / observed) - 1);
            prior[r] = Math.Abs((before / observed) - 1);
        }

        return (Median(error), Median(prior));
    }

    private static double Median(double[] values)
    {
        double[] sorted = [.. values.Order()];
        int h = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[h] : 0.5 * (sorted[h - 1] + sorted[h]);
    }

    /// <summary>Stops an hour over all rides with a prior of one ride; spread between rides likewise.</summary>
    private static (double? MinutesPerHour, double? Gsd) Stops(IReadOnlyList<TimedLeg> timed, string[] rides, int[] rideOf, PaceModel model)
    {
        double[] moving = new double[rides.Length], stopped = new double[rides.Length];
        for (int i = 0; i < timed.Count; i++)
        {
            moving[rideOf[i]] += timed[i].Moving.TotalHours;
            stopped[rideOf[i]] += timed[i].Stopped.TotalMinutes;
        }

        if (stopped.Sum() <= 0)
        {
            return (null, null);
        }

        double hours = moving.Sum(), mean = (model.StopPerMoving * 60 * moving.Average() + stopped.Sum()) / (moving.Average() + hours);
        double prior = Math.Log(model.Options.Stops.GsdFactor), sum = PriorWeight * prior * prior, count = PriorWeight;
        for (int r = 0; r < rides.Length; r++)
        {
            if (stopped[r] > 0)
            {
                double d = Math.Log(stopped[r] / moving[r] / mean);
                sum += d * d;
                count++;
            }
        }

        return (Math.Clamp(mean, 0, 600), Math.Clamp(Math.Exp(Math.Sqrt(sum / count)), 1, 10));
    }
}
