using MathNet.Numerics.LinearAlgebra;
using UnitsNet;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// Maximum of the posterior of log power, log technical speed by difficulty and log speed downhill from log leg times. Legs of a ride share a ride effect, and what
/// they have in common of surfaces and of pace on foot; the variances of the ride effect and of the rest are learned and shrunk. Leave-one-ride-out is computed on the last linearisation.
/// </summary>
[Source("derived-map-calibration", "model")]
internal static class CalibrationFit
{
    [Source("assumption-calibration", "prior of power is at least this wide: stated watts do not cover drag and rolling")]
    private const double NarrowestPowerLogSd = 0.15;

    [Source("assumption-calibration", "riders' own spreads differ from the assumed ones by a factor of 1.25, one standard deviation")]
    private const double LogSdOfSpreads = 0.2231;

    /// <summary>
    /// Rides, and legs, that the assumed variances count as: a variance with n degrees of freedom has a log standard deviation of about
    /// √(2/n), that of a spread is half of it.
    /// </summary>
    [Source("derived-map-calibration", "weight of the prior variances")]
    public const double VariancePriorWeight = 2 / (4 * LogSdOfSpreads * LogSdOfSpreads);

    [Source("assumption-calibration", "the prior of stops counts as this many rides")]
    private const double StopPriorWeight = 1;

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
        bool descends = legs.Any(l => l.Descends);
        int n = legs.Length, skills = 1 + seen.Length, p = skills + (descends ? 1 : 0);
        double[] priorSd = new double[p];
        priorSd[0] = Math.Max(NarrowestPowerLogSd, model.Effort.LogSd);
        for (int k = 1; k < skills; k++)
        {
            var difficulty = (TrailDifficulty)(seen[k - 1] - 1);
            priorSd[k] = Math.Max(0.02, Math.Log(model.Options.Calibration?.TechnicalGsdFactor(difficulty) ?? model.Options.Cap(difficulty).GsdFactor));
        }

        if (descends)
        {
            priorSd[skills] = Math.Max(0.02, Math.Log(model.Options.Calibration?.DescentGsdFactor ?? model.Options.Spread.DescentGsdFactor));
        }

        Matrix<double>[] white = Whitening(model, legs, rideOf, rides.Length, out double[] unit);
        double tau0 = model.RideLogSd * model.RideLogSd, tau = tau0, kappa = 1;
        double[] theta = new double[p];
        Matrix<double> jacobian = Matrix<double>.Build.Dense(n, p);
        Matrix<double> whiteJacobian = Matrix<double>.Build.Dense(n, p);
        double[] residual = new double[n], whiteResidual = new double[n];
        double[] start = new double[n];
        Matrix<double> normal = Matrix<double>.Build.Dense(p, p);
        for (int round = 0; round < Rounds; round++)
        {
            Linearise(legs, seen, theta, residual, jacobian);
            if (round == 0)
            {
                residual.CopyTo(start, 0);
            }

            Whiten(white, rideOf, residual, jacobian, whiteResidual, whiteJacobian);
            (normal, Vector<double> right) = Normal(whiteJacobian, whiteResidual, theta, unit, rideOf, rides.Length, priorSd, tau, kappa, leftOut: -1);
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
            Whiten(white, rideOf, residual, jacobian, whiteResidual, whiteJacobian);
            (tau, kappa) = Variances(whiteJacobian, whiteResidual, normal.Inverse(), unit, rideOf, rides.Length, tau0, tau, kappa);
            if (moved < Settled && Math.Abs(tau - oldTau) < Settled * oldTau && Math.Abs(kappa - oldKappa) < Settled * oldKappa)
            {
                break;
            }
        }

        Linearise(legs, seen, theta, residual, jacobian);
        Whiten(white, rideOf, residual, jacobian, whiteResidual, whiteJacobian);
        (normal, _) = Normal(whiteJacobian, whiteResidual, theta, unit, rideOf, rides.Length, priorSd, tau, kappa, -1);
        Matrix<double> covariance = normal.Inverse();
        (double? heldOut, double? prior) = HeldOut(jacobian, residual, whiteJacobian, whiteResidual, start, theta, legs, unit, rideOf, rides.Length, priorSd, tau, kappa);
        PaceCalibration? earlier = model.Options.Calibration;
        TechnicalSkill[] carried = [.. earlier?.Technique.Where(t => !seen.Contains((int)t.Difficulty + 1)) ?? []];
        (double? stops, double? stopGsd) = Stops(timed, rides, rideOf, model);
        return new PaceCalibration
        {
            SustainedPower = Power.FromWatts(Math.Clamp(model.Effort.PowerW * Math.Exp(theta[0]), 10, 1000)),
            PowerGsdFactor = Gsd(Math.Sqrt(covariance[0, 0])),
            Technique =
            [
                .. Enumerable.Range(1, skills - 1).Select(k =>
                {
                    var difficulty = (TrailDifficulty)(seen[k - 1] - 1);
                    double known = earlier?.TechnicalFactor(difficulty) ?? 1;
                    return new TechnicalSkill(difficulty, Math.Clamp(known * Math.Exp(theta[k]), 0.1, 10), Gsd(Math.Sqrt(covariance[k, k])));
                }),
                .. carried,
            ],
            DescentFactor = Math.Clamp((model.Options.Calibration?.DescentFactor ?? 1) * (descends ? Math.Exp(theta[skills]) : 1), 0.1, 10),
            DescentGsdFactor = descends ? Gsd(Math.Sqrt(covariance[skills, skills])) : model.Options.Calibration?.DescentGsdFactor,
            CorrelationFactor = Correlations(covariance, skills, carried.Length, descends, earlier?.DescentGsdFactor is not null),
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

    /// <summary>Rows below the diagonal: power, techniques seen, techniques carried over (on their own), descending.</summary>
    private static double[] Correlations(Matrix<double> covariance, int skills, int carried, bool descends, bool descentKnown)
    {
        int last = skills + carried, n = last + (descends || descentKnown ? 1 : 0);
        var rows = new List<double>();
        for (int i = 1; i < n; i++)
        {
            for (int j = 0; j < i; j++)
            {
                int a = Place(i), b = Place(j);
                rows.Add(a < 0 || b < 0 ? 0 : Math.Clamp(covariance[a, b] / Math.Sqrt(covariance[a, a] * covariance[b, b]), -1, 1));
            }
        }

        return [.. rows];

        int Place(int k) => k < skills ? k : k == last && descends ? skills : -1;
    }

    private static double Gsd(double logSd) => Math.Min(3, Math.Exp(logSd));

    private static void Linearise(LegPhysics[] legs, int[] seen, double[] theta, double[] residual, Matrix<double>? jacobian)
    {
        // In the order of theta: power, the difficulties seen, descending where a leg descends.
        double[] technique = new double[TrailPriors.Difficulties], at = [.. theta];
        for (int i = 0; i < legs.Length; i++)
        {
            LegPhysics leg = legs[i];
            residual[i] = leg.LogObserved - LogTime(leg);
            for (int k = 0; jacobian is not null && k < theta.Length; k++)
            {
                if (!(k == 0 || (k > seen.Length ? leg.Descends : leg.Has((TrailDifficulty)(seen[k - 1] - 1)))))
                {
                    jacobian[i, k] = 0;
                    continue;
                }

                at[k] = theta[k] + Step;
                double up = LogTime(leg);
                at[k] = theta[k] - Step;
                jacobian[i, k] = (up - LogTime(leg)) / (2 * Step);
                at[k] = theta[k];
            }
        }

        double LogTime(LegPhysics leg)
        {
            for (int k = 0; k < seen.Length; k++)
            {
                technique[seen[k]] = at[k + 1];
            }

            return leg.LogTime(at[0], technique, at.Length > seen.Length + 1 ? at[^1] : 0);
        }
    }

    /// <summary>
    /// For each ride the inverse of the lower root of what its legs scatter by besides the ride effect: their steps' own factors, and the
    /// surfaces' and the walker's factors, which the legs of one ride share. <paramref name="unit"/> is the ride effect after it.
    /// </summary>
    [Source("derived-map-calibration", "legs of a ride share the factors of surfaces and pace on foot")]
    private static Matrix<double>[] Whitening(PaceModel model, LegPhysics[] legs, int[] rideOf, int rides, out double[] unit)
    {
        var white = new Matrix<double>[rides];
        unit = new double[legs.Length];
        for (int r = 0; r < rides; r++)
        {
            int[] own = [.. Enumerable.Range(0, legs.Length).Where(i => rideOf[i] == r)];
            Matrix<double> scatter = Matrix<double>.Build.Dense(own.Length, own.Length, (i, j) =>
            {
                double[] a = legs[own[i]].Weights, b = legs[own[j]].Weights;
                double sum = (i == j ? legs[own[i]].OwnVariance : 0) + (a[TodayState.Foot] * b[TodayState.Foot] * model.State.Covariance[TodayState.Foot, TodayState.Foot]);
                for (int g = TodayState.Groups; g < TodayState.Groups + TrailPriors.Surfaces; g++)
                {
                    sum += a[g] * b[g] * model.State.Covariance[g, g];
                }

                return sum;
            });
            white[r] = scatter.Cholesky().Factor.Inverse();
            Vector<double> one = white[r] * Vector<double>.Build.Dense(own.Length, 1);
            for (int i = 0; i < own.Length; i++)
            {
                unit[own[i]] = one[i];
            }
        }

        return white;
    }

    /// <summary>Residuals and their derivatives with the legs' scatter made independent and of variance 1, ride by ride.</summary>
    private static void Whiten(Matrix<double>[] white, int[] rideOf, double[] residual, Matrix<double> jacobian, double[] whiteResidual, Matrix<double> whiteJacobian)
    {
        whiteJacobian.Clear();
        for (int r = 0; r < white.Length; r++)
        {
            int[] own = [.. Enumerable.Range(0, residual.Length).Where(i => rideOf[i] == r)];
            for (int i = 0; i < own.Length; i++)
            {
                double sum = 0;
                for (int j = 0; j <= i; j++)
                {
                    double w = white[r][i, j];
                    sum += w * residual[own[j]];
                    for (int k = 0; k < jacobian.ColumnCount; k++)
                    {
                        whiteJacobian[own[i], k] += w * jacobian[own[j], k];
                    }
                }

                whiteResidual[own[i]] = sum;
            }
        }
    }

    /// <summary>Normal equations with the ride effect integrated out (rank-one update of each ride's diagonal).</summary>
    private static (Matrix<double> Normal, Vector<double> Right) Normal(
        Matrix<double> jacobian, double[] residual, double[] theta, double[] unit, int[] rideOf, int rides, double[] priorSd, double tau, double kappa, int leftOut)
    {
        int p = theta.Length, n = residual.Length;
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

            double w = 1 / kappa, shared = w * unit[i];
            weight[rideOf[i]] += shared * unit[i];
            sumR[rideOf[i]] += shared * residual[i];
            for (int k = 0; k < p; k++)
            {
                double jk = jacobian[i, k];
                sumJ[rideOf[i], k] += shared * jk;
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
        Matrix<double> jacobian, double[] residual, Matrix<double> covariance, double[] unit, int[] rideOf, int rides, double tau0, double tau, double kappa)
    {
        int p = covariance.RowCount;
        double[] weight = new double[rides], effect = new double[rides], variance = new double[rides];
        Vector<double>[] shared = [.. Enumerable.Range(0, rides).Select(_ => Vector<double>.Build.Dense(p))];
        for (int i = 0; i < residual.Length; i++)
        {
            double w = unit[i] / kappa;
            weight[rideOf[i]] += w * unit[i];
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

        for (int i = 0; i < residual.Length; i++)
        {
            int r = rideOf[i];
            Vector<double> row = jacobian.Row(i);
            double e = residual[i] - (unit[i] * effect[r]), open = (row * (covariance * row)) - (2 * unit[i] * (row * shared[r])) + (unit[i] * unit[i] * variance[r]);
            within += (e * e) + Math.Max(0, open);
        }

        return (((VariancePriorWeight * tau0) + between) / (VariancePriorWeight + rides), Math.Max((VariancePriorWeight + within) / (VariancePriorWeight + residual.Length), SmallestNoiseScale));

        double Moment(int r)
        {
            double sum = 0;
            for (int i = 0; i < residual.Length; i++)
            {
                sum += rideOf[i] == r ? unit[i] * (jacobian.Row(i) * shared[r]) / kappa : 0;
            }

            return sum;
        }
    }

    private static (double? HeldOut, double? Prior) HeldOut(
        Matrix<double> jacobian, double[] residual, Matrix<double> whiteJacobian, double[] whiteResidual, double[] start, double[] theta, LegPhysics[] legs, double[] unit, int[] rideOf, int rides, double[] priorSd, double tau, double kappa)
    {
        if (rides < 2)
        {
            return (null, null);
        }

        double[] error = new double[rides], prior = new double[rides];
        for (int r = 0; r < rides; r++)
        {
            (Matrix<double> a, Vector<double> b) = Normal(whiteJacobian, whiteResidual, theta, unit, rideOf, rides, priorSd, tau, kappa, r);
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
        double prior = Math.Log(model.Options.Stops.GsdFactor), sum = StopPriorWeight * prior * prior, count = StopPriorWeight;
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
