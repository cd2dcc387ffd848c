using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>Gauge pressures that the makers of tyre and rim allow; they win over any computation.</summary>
/// <remarks>Immutable. Null is not known.</remarks>
public sealed record TyreLimits
{
    private readonly double _lowPa = double.NaN;
    private readonly double _tyrePa = double.NaN;
    private readonly double _rimPa = double.NaN;

    /// <summary>Lowest pressure printed on the tyre; 0 to 1 000 kPa.</summary>
    public Pressure? TyreLowest
    {
        get => double.IsNaN(_lowPa) ? null : Pressure.FromPascals(_lowPa);
        init => _lowPa = Check(value, nameof(TyreLowest));
    }

    /// <summary>Highest pressure printed on the tyre; 0 to 1 000 kPa.</summary>
    public Pressure? TyreHighest
    {
        get => double.IsNaN(_tyrePa) ? null : Pressure.FromPascals(_tyrePa);
        init => _tyrePa = Check(value, nameof(TyreHighest));
    }

    /// <summary>Highest pressure that the rim's maker allows for this width; 0 to 1 000 kPa.</summary>
    public Pressure? RimHighest
    {
        get => double.IsNaN(_rimPa) ? null : Pressure.FromPascals(_rimPa);
        init => _rimPa = Check(value, nameof(RimHighest));
    }

    internal double LowestPa => _lowPa;

    internal double HighestPa => double.IsNaN(_tyrePa) ? _rimPa : double.IsNaN(_rimPa) ? _tyrePa : Math.Min(_tyrePa, _rimPa);

    private static double Check(Pressure? value, string name)
        => value is { } v ? Guard.InRange(v.Kilopascals, 0, 1000, "kPa", name) * 1000 : double.NaN;
}
