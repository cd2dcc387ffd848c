using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Quantities in the words of one measure system.</summary>
internal sealed class PlanUnits(MeasureSystem system)
{
    private const double MPerMile = 1609.344, MPerFoot = 0.3048, LPerQuart = 0.946352946, KgPerPound = 0.45359237;

    /// <summary>SI-based units.</summary>
    public static PlanUnits Metric { get; } = new(MeasureSystem.Metric);

    /// <summary>US customary units.</summary>
    public static PlanUnits Us { get; } = new(MeasureSystem.UsCustomary);

    private bool InUs { get; } = system == MeasureSystem.UsCustomary;

    /// <summary>A sentence of the library in these units; names that the caller gave stay as they are.</summary>
    public string Words(string text, IReadOnlyList<string> names) => InUs ? UsWords.Of(text, names) : text;

    /// <summary>Names that the caller gave, longest first, so that a name that holds another one is found whole.</summary>
    public static IReadOnlyList<string> Names(RidePlan plan)
        => [.. plan.Stations.Select(s => s.Name).Concat(plan.Stations.Select(s => s.WayOutTo)).Append(plan.Title).Append(plan.BikeFails?.ExitName ?? "")
            .Concat(plan.Devices.Select(d => d.Name)).Concat(plan.KitPlan is { } k ? k.Chosen.Select(c => c.Item.Name).Concat(k.LeftOut.Select(c => c.Item.Name)) : [])
            .Where(n => n.Length > 1).Distinct(StringComparer.Ordinal).OrderByDescending(n => n.Length).ThenBy(n => n, StringComparer.Ordinal)];

    /// <summary>Small masses: grams or ounces below a kilogram or a pound.</summary>
    public string SmallMass(double kg) => InUs ? kg < KgPerPound ? Text.F(kg * 1000 / 28.349523125, 1) + " oz" : Text.F(kg / KgPerPound, 1) + " lb" : Mass(kg);

    public string DistanceUnit => InUs ? "mi" : "km";

    public string HeightUnit => InUs ? "ft" : "m";

    public string VolumeUnit => InUs ? "qt" : "L";

    public string Km(double m, int decimals = 1) => Text.F(InUs ? m / MPerMile : m / 1000, decimals) + " " + DistanceUnit;

    /// <summary>"km 31" or "mile 19.3": a place along the route.</summary>
    public string At(double m) => InUs ? "mile " + Text.F(m / MPerMile, 1) : "km " + Text.F(m / 1000, m >= 99_950 ? 0 : 1);

    public string KmShort(double m) => Text.F(InUs ? m / MPerMile : m / 1000, m < 99_950 ? 1 : 0);

    public string Height(double m) => HeightNumber(m) + " " + HeightUnit;

    public string HeightNumber(double m) => Text.Thousands(Round(InUs ? m / MPerFoot : m, InUs ? 50 : 10));

    public string Litres(double l, int decimals = 1) => Text.F(InUs ? l / LPerQuart : l, decimals) + " " + VolumeUnit;

    public string LitresNumber(double l) => Text.F(InUs ? l / LPerQuart : l, 1);

    /// <summary>Rounded up: what must be carried. US units go up from the metric figure, so that a sentence turned from litres and a table agree.</summary>
    public string LitresUp(double l) => LitresUpNumber(l) + " " + VolumeUnit;

    public string LitresUpNumber(double l)
    {
        double up = Tenth(l);
        return Text.F(InUs ? Tenth(up / LPerQuart) : up, 1);

        static double Tenth(double v) => Math.Ceiling((v * 10) - 1e-6) / 10;
    }

    public string Temperature(double c, int decimals = 0) => double.IsNaN(c) ? "-" : Text.F(InUs ? (c * 9 / 5) + 32 : c, decimals) + (InUs ? " F" : " C");

    public string Mass(double kg) => InUs
        ? Text.F(kg / KgPerPound, 1) + " lb"
        : kg < 1 ? Text.F(kg * 1000, 0) + " g" : Text.F(kg, 1) + " kg";

    private static double Round(double v, double to) => Math.Round(v / to, MidpointRounding.AwayFromZero) * to;
}
