using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>A treatment method as it is carried: how long it takes, and what it does not deal with.</summary>
/// <remarks>
/// Published advice, condensed; labels and local health advice come first. No method removes chemicals, mine drainage or algal toxins.
/// Flow rates of filters are not published in a usable way and must be given. Sources: epa-wsg11, cdc-backcountry, epa-emergency, who-boil.
/// Immutable.
/// </remarks>
[Entry]
public sealed record WaterTreatment
{
    private readonly double _flowLpmin = double.NaN;
    private readonly double _poreUm = double.NaN;
    private readonly double _setUpMin;
    private readonly double _heatMinPerL = double.NaN;

    /// <summary>Makes a treatment.</summary>
    /// <param name="method">Which.</param>
    /// <exception cref="ArgumentOutOfRangeException">The method is none of the enumeration.</exception>
    public WaterTreatment(WaterTreatmentMethod method) => Method = Guard.Defined(method);

    /// <summary>Which.</summary>
    public WaterTreatmentMethod Method { get; }

    /// <summary>Flow of the filter as measured by the rider; 0.05 to 10 L/min. Null: unknown, no time is given.</summary>
    public VolumeFlow? FilterFlow
    {
        get => double.IsNaN(_flowLpmin) ? null : VolumeFlow.FromLitersPerMinute(_flowLpmin);
        init => _flowLpmin = value is { } v ? Guard.InRange(v.LitersPerMinute, 0.05, 10, "L/min", nameof(FilterFlow)) : double.NaN;
    }

    /// <summary>Absolute pore size of the filter; 0.001 to 10 µm. Null: unknown, counted as protozoa only with unknown bacteria.</summary>
    public Length? FilterPore
    {
        get => double.IsNaN(_poreUm) ? null : Length.FromMicrometers(_poreUm);
        init => _poreUm = value is { } v ? Guard.InRange(v.Micrometers, 0.001, 10, "µm", nameof(FilterPore)) : double.NaN;
    }

    /// <summary>Time to bring a litre to the boil with the rider's stove; 1 to 60 min. Null: unknown, only the boil itself is counted.</summary>
    public TimeSpan? HeatingPerLitre
    {
        get => double.IsNaN(_heatMinPerL) ? null : TimeSpan.FromMinutes(_heatMinPerL);
        init => _heatMinPerL = value is { } v ? Guard.InRange(v.TotalMinutes, 1, 60, "min", nameof(HeatingPerLitre)) : double.NaN;
    }

    /// <summary>Unpacking, collecting and packing at each stop; 0 to 60 min.</summary>
    public TimeSpan SetUp
    {
        get => TimeSpan.FromMinutes(_setUpMin);
        init => _setUpMin = Guard.InRange(value.TotalMinutes, 0, 60, "min", nameof(SetUp));
    }

    /// <summary>Whether the water is cloudy: chemical doses are doubled by public advice, and the longer time is counted.</summary>
    public bool IsCloudy { get; init; }

    /// <summary>Whether the water is cold (below about 5 °C): chemicals work slower, the longer time is counted.</summary>
    public bool IsCold { get; init; }

    /// <summary>Protozoa other than Cryptosporidium (Giardia).</summary>
    public PathogenControl Protozoa => Method switch
    {
        WaterTreatmentMethod.Boil => PathogenControl.High,
        WaterTreatmentMethod.Filter => WaterTreatmentKernel.FilterControl(_poreUm, WaterTreatmentKernel.ProtozoaPoreUm, PathogenControl.High),
        WaterTreatmentMethod.Chlorine or WaterTreatmentMethod.Iodine => PathogenControl.LowToModerate,
        WaterTreatmentMethod.ChlorineDioxide => PathogenControl.LowToModerate,
        _ => PathogenControl.None,
    };

    /// <summary>Cryptosporidium.</summary>
    public PathogenControl Cryptosporidium => Method switch
    {
        WaterTreatmentMethod.Boil => PathogenControl.High,
        WaterTreatmentMethod.Filter => WaterTreatmentKernel.FilterControl(_poreUm, WaterTreatmentKernel.ProtozoaPoreUm, PathogenControl.High),
        WaterTreatmentMethod.ChlorineDioxide => PathogenControl.LowToModerate,
        _ => PathogenControl.None,
    };

    /// <summary>Bacteria.</summary>
    public PathogenControl Bacteria => Method switch
    {
        WaterTreatmentMethod.Boil => PathogenControl.High,
        WaterTreatmentMethod.Filter => WaterTreatmentKernel.FilterControl(_poreUm, WaterTreatmentKernel.BacteriaPoreUm, PathogenControl.Moderate),
        WaterTreatmentMethod.None => PathogenControl.None,
        _ => PathogenControl.High,
    };

    /// <summary>Viruses.</summary>
    public PathogenControl Viruses => Method switch
    {
        WaterTreatmentMethod.Boil => PathogenControl.High,
        WaterTreatmentMethod.Filter => WaterTreatmentKernel.FilterControl(_poreUm, WaterTreatmentKernel.VirusPoreUm, PathogenControl.Moderate),
        WaterTreatmentMethod.None => PathogenControl.None,
        _ => PathogenControl.High,
    };

    /// <summary>Time to treat a volume at a height: typical, and the longest that the advice names.</summary>
    /// <param name="volume">0 to 60 L.</param>
    /// <param name="elevation">-430 to 9 000 m; boiling takes longer above 2 000 m.</param>
    /// <returns>The time, set-up included; null when a filter's flow is unknown.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public Estimate<TimeSpan>? Time(Volume volume, Length elevation = default)
    {
        double l = Guard.InRange(volume.Liters, 0, 60, "L", nameof(volume));
        double heightM = Guard.InRange(elevation.Meters, -430, 9000, "m", nameof(elevation));
        if (l == 0)
        {
            return Estimate.Exact(TimeSpan.Zero);
        }

        double typical, longest;
        switch (Method)
        {
            case WaterTreatmentMethod.None:
                typical = longest = 0;
                break;
            case WaterTreatmentMethod.Filter:
                if (double.IsNaN(_flowLpmin))
                {
                    return null;
                }

                typical = l / _flowLpmin;
                longest = typical * WaterTreatmentKernel.SlowFilterFactor;
                break;
            case WaterTreatmentMethod.Boil:
                typical = longest = WaterTreatmentKernel.BoilMin(heightM) + (double.IsNaN(_heatMinPerL) ? 0 : _heatMinPerL * l);
                break;
            default:
                typical = WaterTreatmentKernel.ChemicalWaitMin;
                longest = typical * (IsCloudy || IsCold || Method == WaterTreatmentMethod.ChlorineDioxide ? WaterTreatmentKernel.SlowChemicalFactor : 1);
                typical *= IsCloudy || IsCold ? WaterTreatmentKernel.DoubtfulWaterFactor : 1;
                break;
        }

        TimeSpan t = TimeSpan.FromMinutes(_setUpMin + typical);
        return new Estimate<TimeSpan>(t, t, TimeSpan.FromMinutes(_setUpMin + longest));
    }

    /// <summary>What the method leaves open, in findings.</summary>
    /// <returns>At least one finding for every real method.</returns>
    public IReadOnlyList<Finding> Limits()
    {
        var findings = new List<Finding>();
        if (Method == WaterTreatmentMethod.None)
        {
            return findings;
        }

        var weak = new List<string>(4);
        Add(Protozoa, "protozoa");
        Add(Cryptosporidium, "Cryptosporidium");
        Add(Bacteria, "bacteria");
        Add(Viruses, "viruses");
        string name = Words(Method);
        findings.Add(new Finding(HydrationFindingCodes.TreatmentLimits, weak.Count > 0 ? FindingSeverity.Caution : FindingSeverity.Note, name,
            (weak.Count > 0 ? "Does not reliably deal with " + string.Join(", ", weak) + ". " : "")
            + "No method removes chemicals, mine drainage or toxins of algae. Labels and local health advice come first."));
        if (Method == WaterTreatmentMethod.Filter)
        {
            findings.Add(new Finding(HydrationFindingCodes.FilterLost, FindingSeverity.Caution, name,
                "A filter that clogs, or that may have frozen once wet, counts as lost: carry a second method."));
            if (double.IsNaN(_flowLpmin))
            {
                findings.Add(new Finding(HydrationFindingCodes.TreatmentUnset, FindingSeverity.Note, name,
                    "Its flow is unknown: measure it with the water of the ride; no time is counted."));
            }
        }

        return findings;

        void Add(PathogenControl control, string what)
        {
            if (control is PathogenControl.None or PathogenControl.LowToModerate or PathogenControl.Unknown)
            {
                weak.Add(what);
            }
        }
    }

    /// <summary>The method in words.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Words(Method);

    private static string Words(WaterTreatmentMethod method) => method switch
    {
        WaterTreatmentMethod.Filter => "filter",
        WaterTreatmentMethod.Boil => "boiling",
        WaterTreatmentMethod.Chlorine => "chlorine",
        WaterTreatmentMethod.Iodine => "iodine",
        WaterTreatmentMethod.ChlorineDioxide => "chlorine dioxide",
        _ => "no treatment",
    };
}
