using System.Globalization;
using System.Text;
using SoloRide.Contact;
using SoloRide.Effort;
using SoloRide.Hydration;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Afterwards: all clear, planned against actual, and what the next plan learns from it.</summary>
/// <remarks>One ride says little: rates and factors move by as much as one ride is worth. Immutable; a pure function of its arguments.</remarks>
[Entry(NoOutsideCheck = "compares a record with a plan; updates are those of effort, kit and hydration, checked there")]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record RideReview
{
    private RideReview()
    {
    }

    /// <summary>The all-clear for home, in the 7-bit alphabet, at most 160 characters.</summary>
    public required string AllClear { get; init; }

    /// <summary>Planned against actual, a line each.</summary>
    public required IReadOnlyList<string> Lines { get; init; }

    /// <summary>Whether the end fell within the range that 8 rides in 10 keep.</summary>
    public required bool WithinRange { get; init; }

    /// <summary>The ride as a timed leg for the log of paces.</summary>
    public required TimedLeg Leg { get; init; }

    /// <summary>Moving time over the planned one after this ride, with its range; above 1 is slower.</summary>
    public required Estimate<Ratio> PaceFactor { get; init; }

    /// <summary>The ride for the log of sweat; null when it was not weighed or what was drunk is not known.</summary>
    public WeighedRide? Sweat { get; init; }

    /// <summary>Rates of failure with this ride counted in: those of the request, and those of what broke.</summary>
    public required IReadOnlyDictionary<FailureKind, FailureRate> FailureRates { get; init; }

    /// <summary>What failed on this ride, and how often.</summary>
    public required IReadOnlyDictionary<FailureKind, int> Failures { get; init; }

    /// <summary>What to replace or refill before the next ride.</summary>
    public required IReadOnlyList<string> Replace { get; init; }

    /// <summary>Compares a ride with its plan.</summary>
    /// <param name="request">What the plan was made from.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="record">What happened.</param>
    /// <param name="terrain">As in <see cref="RidePlanner.Plan"/>.</param>
    /// <returns>The review.</returns>
    /// <exception cref="ArgumentException">The end lies not after the start, the stops are as long as the ride, a station or device is not in the plan, or the plan was refused.</exception>
    public static RideReview Of(RideRequest request, RidePlan plan, RideRecord record, ITerrainHeights? terrain = null)
    {
        Guard.NotNull(request);
        Guard.NotNull(plan);
        Guard.NotNull(record);
        if (plan.Finish is not { } finish)
        {
            throw new ArgumentException("The plan was refused: there is nothing to compare with.", nameof(plan));
        }

        DateTimeOffset start = record.Started ?? plan.Start;
        TimeSpan elapsed = record.Finished - start;
        if (elapsed <= TimeSpan.Zero || record.Stopped >= elapsed)
        {
            throw new ArgumentException($"The ride ends {Text.Span(elapsed)} after its start{(record.Stopped is { } x ? $", of which {Text.Span(x)} stood" : "")}: nothing is left to have moved in.", nameof(record));
        }

        DateTimeOffset back = plan.Zone.ToLocal(record.Finished);
        TimeSpan shift = start - plan.Start;
        var lines = new List<string> { Against("Finish", finish, back) };
        bool within = back >= finish.Low + shift && back <= finish.High + shift;
        foreach ((string name, DateTimeOffset at) in record.Passed)
        {
            PlanStation station = plan.Stations.FirstOrDefault(p => p.Name == name) ?? throw new ArgumentException($"The plan has no station '{name}'.", nameof(record));
            lines.Add(Against(name, station.Arrival, plan.Zone.ToLocal(at)));
        }

        if (record.Drunk is { } drunk && plan.Needs is { } needs)
        {
            lines.Add($"Drunk {Text.F(drunk.Liters, 1)} L; planned {Text.F(needs.Drink.Low.Liters, 1)}-{Text.F(needs.Drink.High.Liters, 1)} L.");
        }

        foreach ((string device, double left) in record.ChargeLeftFraction.OrderBy(c => c.Key, StringComparer.Ordinal))
        {
            DeviceOutlook outlook = plan.Devices.FirstOrDefault(d => d.Name == device) ?? throw new ArgumentException($"The plan has no device '{device}'.", nameof(record));
            Guard.Fraction(left, nameof(record));
            lines.Add($"{device}: {Text.F(100 * left, 0)} % left; planned {Text.F(outlook.AtFinish.Low.Percent, 0)}-{Text.F(outlook.AtFinish.High.Percent, 0)} %.");
        }

        (PaceUpdate pace, TimedLeg leg) = RidePlanner.Learn(request with { Start = start }, terrain, elapsed, record.Stopped, $"{plan.Title} {Text.Date(plan.Start)}");
        lines.Add(RidePlanner.PaceWords(pace.PaceFactor.Typical.DecimalFractions).Replace(", on trail like that so far", "", StringComparison.Ordinal).Replace(" so far", "", StringComparison.Ordinal));
        var rates = new SortedDictionary<FailureKind, FailureRate>();
        foreach (FailureKind kind in request.FailureRates.Keys.Concat(record.Failures.Keys).Distinct())
        {
            FailureRate was = request.FailureRates.GetValueOrDefault(kind) ?? FailureRate.WidePrior;
            rates[kind] = was.Updated(record.Failures.GetValueOrDefault(kind), plan.Length);
        }

        WeighedRide? sweat = record.Weighed is { } w && record.Drunk is { } d ? new WeighedRide(w.Before, w.After, d, elapsed) : null;
        if (sweat is not null)
        {
            lines.Add($"Sweat {Text.F(sweat.SweatRate.LitersPerHour, 2)} L/h over the whole ride.");
        }

        return new RideReview
        {
            AllClear = StatusMessage.Compose(new MessageRequest { Kind = MessageKind.Back, SentAt = back, PlaceName = plan.Stations[^1].Name }).Body,
            Lines = lines,
            WithinRange = within,
            Leg = leg,
            PaceFactor = pace.PaceFactor,
            Sweat = sweat,
            FailureRates = rates,
            Failures = record.Failures,
            Replace = [.. record.Used.Distinct(StringComparer.Ordinal), .. plan.Devices.Where(x => record.ChargeLeftFraction.TryGetValue(x.Name, out double left) && left < 0.3).Select(x => $"charge {x.Name}")],
        };

        string Against(string what, Estimate<DateTimeOffset> planned, DateTimeOffset at)
        {
            TimeSpan late = at - planned.Typical - shift;
            string range = shift == TimeSpan.Zero ? "" : $" (start {Text.Span(shift.Duration())} {(shift > TimeSpan.Zero ? "later" : "earlier")})";
            return $"{what} {PlanText.ClockOn(at, plan.Start)}; planned {PlanText.Range(planned, plan.Zone, plan.Start)}{range}: {(Math.Abs(late.TotalMinutes) < 3 ? "as planned" : $"{Text.Span(late.Duration())} {(late > TimeSpan.Zero ? "later" : "earlier")} than the middle")}.";
        }
    }

    /// <summary>The review in a few lines of 80 columns.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text with line feeds, with the cautions.</returns>
    public string ToText(PlanTextOptions? options = null)
    {
        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        var b = new StringBuilder();
        PlanText.Paragraph(b, "Send", AllClear);
        foreach (string line in Lines)
        {
            PlanText.Paragraph(b, "", u.Words(line, []));
        }

        if (!WithinRange)
        {
            PlanText.Paragraph(b, "Learn", "The end lies outside the range that 8 rides in 10 keep: add this ride to the log of paces before the next plan.");
        }

        foreach ((FailureKind kind, FailureRate rate) in FailureRates)
        {
            string name = RepairMatrix.Standard.Modes.FirstOrDefault(m => m.Kind == kind)?.Name ?? kind.ToString();
            int now = Failures.GetValueOrDefault(kind);
            PlanText.Paragraph(b, "Log", $"{name}: {(now == 0 ? "none" : Text.F(now, 0))} on this ride; the log now says once in {Every(rate.PerDistance.Typical)} (8 in 10: {Every(rate.PerDistance.High)} to {Every(rate.PerDistance.Low)}).");
        }

        if (Replace.Count > 0)
        {
            PlanText.Paragraph(b, "Replace", string.Join(", ", Replace) + ".");
        }

        PlanText.Paragraph(b, "Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());

        string Every(ReciprocalLength rate) => rate.InverseMeters > 0 ? Text.Thousands(double.Parse(u.KmShort(1 / rate.InverseMeters), CultureInfo.InvariantCulture)) + " " + u.DistanceUnit : "more than can be told";
    }

    /// <summary>The review as text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToText();
}
