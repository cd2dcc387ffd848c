using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Cumulative need along the route at one quantile; linear on each stretch, with jumps at places.</summary>
internal sealed class DemandLine
{
    private const double JoinToleranceM = 1;

    private readonly double[] _fromM;
    private readonly double[] _toM;
    private readonly double[] _atL; // cumulative before stretch k

    public DemandLine(IReadOnlyList<WaterDemand> demand, double quantile)
    {
        if (demand.Count == 0)
        {
            throw new ArgumentException("Demand holds no stretches; at least one is needed.", nameof(demand));
        }

        int n = demand.Count;
        _fromM = new double[n];
        _toM = new double[n];
        _atL = new double[n + 1];
        double deviate = MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, quantile);
        for (int k = 0; k < n; k++)
        {
            WaterDemand d = Guard.NotNull(demand[k], $"Demand[{k}]");
            if (k > 0 && Math.Abs(d.FromM - _toM[k - 1]) > JoinToleranceM)
            {
                throw new ArgumentException(
                    $"Demand[{k}] begins at {Text.F(d.FromM, 0)} m; the one before ends at {Text.F(_toM[k - 1], 0)} m. Stretches must join within 1 m.", nameof(demand));
            }

            _fromM[k] = k == 0 ? d.FromM : _toM[k - 1];
            _toM[k] = Math.Max(d.ToM, _fromM[k]);
            _atL[k + 1] = _atL[k] + NeedL(d.Need, deviate);
        }
    }

    public double StartM => _fromM[0];

    public double EndM => _toM[^1];

    public double TotalL => _atL[^1];

    /// <summary>Need from the start to a point; what is needed at the point itself is not yet counted.</summary>
    public double Before(double m)
    {
        for (int k = 0; k < _fromM.Length; k++)
        {
            if (m <= _toM[k])
            {
                double length = _toM[k] - _fromM[k];
                return length > 0 ? _atL[k] + ((_atL[k + 1] - _atL[k]) * Math.Max(0, m - _fromM[k]) / length) : _atL[k];
            }
        }

        return TotalL;
    }

    /// <summary>Litre-kilometres of carrying what is drunk between two points along the way there.</summary>
    public double OwnLitreKm(double fromM, double toM, double toL)
    {
        double sum = 0;
        for (int k = 0; k < _fromM.Length; k++)
        {
            double a = Math.Max(fromM, _fromM[k]), b = Math.Min(toM, _toM[k]), length = _toM[k] - _fromM[k];
            if (b <= a || length <= 0)
            {
                continue;
            }

            double slope = (_atL[k + 1] - _atL[k]) / length;
            double aL = _atL[k] + (slope * (a - _fromM[k])), bL = _atL[k] + (slope * (b - _fromM[k]));
            sum += ((toL - aL) + (toL - bL)) / 2 * (b - a) / 1000;
        }

        return sum;
    }

    /// <summary>Where the cumulative need reaches a value, between two points.</summary>
    public double PositionOf(double litres, double fromM, double toM)
    {
        for (int k = 0; k < _fromM.Length; k++)
        {
            if (litres <= _atL[k + 1] && _atL[k + 1] > _atL[k])
            {
                return Math.Clamp(_fromM[k] + ((litres - _atL[k]) / (_atL[k + 1] - _atL[k]) * (_toM[k] - _fromM[k])), fromM, toM);
            }
        }

        return toM;
    }

    private static double NeedL(Estimate<UnitsNet.Volume> need, double deviate)
    {
        double low = need.Low.Liters, typical = need.Typical.Liters, high = need.High.Liters;
        if (need.IsExact || need.Level is <= 0 or >= 1)
        {
            // Hard bounds: the upper one when planning above the middle.
            return deviate > 0 && need.Level >= 1 ? high : typical;
        }

        double edge = MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, 0.5 + (need.Level / 2));
        return Math.Max(0, typical + (deviate / edge * (deviate > 0 ? high - typical : typical - low)));
    }
}
