using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A whole plan: will it work, what limits it, which times to keep, what to do if bike or body fails, what home is told, what to carry.</summary>
/// <remarks>
/// Ranges are P10 to P90 unless said otherwise. A planning aid, not a guarantee: every rendering carries <see cref="Cautions"/>.
/// Immutable; a pure function of its request.
/// </remarks>
[TypeFormatterSource(typeof(ShownFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed partial record RidePlan : IShown
{
    /// <summary>Name of the ride.</summary>
    public required string Title { get; init; }

    /// <summary>Start, on the ride's own clock.</summary>
    public required DateTimeOffset Start { get; init; }

    /// <summary>The ride's clock.</summary>
    public required ZoneOffsets Zone { get; init; }

    /// <summary>The route, in the direction of travel.</summary>
    public required RideRoute Route { get; init; }

    /// <summary>Length of the route.</summary>
    public required Length Length { get; init; }

    /// <summary>Ascent with its range; null without heights.</summary>
    public Estimate<Length>? Ascent { get; init; }

    /// <summary>Descent with its range; null without heights.</summary>
    public Estimate<Length>? Descent { get; init; }

    /// <summary>Will it work.</summary>
    public required PlanVerdict Verdict { get; init; }

    /// <summary>Confidence that the verdict, the latest start and the latest passes are asked to hold with [share of 1].</summary>
    public required double ConfidenceLevel { get; init; }

    /// <summary>What is in hand against each limit: those of the ride itself, least first, then those that matter only after trouble.</summary>
    public required IReadOnlyList<PlanMargin> Margins { get; init; }

    /// <summary>What limits the ride; null when nothing could be compared.</summary>
    public PlanMargin? Binding => Margins.Count > 0 ? Margins[0] : null;

    /// <summary>Latest start so that every clock still holds; null when no clock applies or none is early enough.</summary>
    public DateTimeOffset? LatestStart { get; init; }

    /// <summary>Which clock sets it.</summary>
    public string LatestStartReason { get; init; } = "";

    /// <summary>Finish.</summary>
    public Estimate<DateTimeOffset>? Finish { get; init; }

    /// <summary>19 of 20 such rides are back by then.</summary>
    public DateTimeOffset? LateFinish { get; init; }

    /// <summary>Moving time.</summary>
    public Estimate<TimeSpan>? Moving { get; init; }

    /// <summary>Time in the dark.</summary>
    public Estimate<TimeSpan>? Dark { get; init; }

    /// <summary>Stations in order.</summary>
    public required IReadOnlyList<PlanStation> Stations { get; init; }

    /// <summary>Where a resource no longer suffices for the way back, first one first; empty when each suffices everywhere.</summary>
    public IReadOnlyList<NoReturn> PointsOfNoReturn { get; init; } = [];

    /// <summary>Other ends of the ride than the planned one; null when refused.</summary>
    public PlanAlternates? Alternates { get; init; }

    /// <summary>Single changes and pairs recomputed in full, best first; empty unless asked for by <see cref="RidePlanner.Levers"/>.</summary>
    public IReadOnlyList<LeverEffect> Levers { get; init; } = [];

    /// <summary>Body's needs and what is carried against them; null when refused.</summary>
    public PlanNeeds? Needs { get; init; }

    /// <summary>Predicted heat strain along the ride; null when refused.</summary>
    public PlanHeat? Heat { get; init; }

    /// <summary>Direct sun and shade of terrain; null when neither skylines nor terrain were given.</summary>
    public PlanSun? Sun { get; init; }

    /// <summary>The walk out from the worst point; null when it could not be computed.</summary>
    public BikeFails? BikeFails { get; init; }

    /// <summary>Waiting for help; null when it could not be computed.</summary>
    public CannotMove? CannotMove { get; init; }

    /// <summary>Devices; empty when none were given.</summary>
    public required IReadOnlyList<DeviceOutlook> Devices { get; init; }

    /// <summary>Times for home; null when refused.</summary>
    public HomeTimes? Home { get; init; }

    /// <summary>Messages, overdue and alarm in full, with what the contact does when; null when refused.</summary>
    public CheckInSchedule? Schedule { get; init; }

    /// <summary>What there is to call with, as the devices say.</summary>
    public IReadOnlyList<CommunicationMeans> Means { get; init; } = [];

    /// <summary>What to carry, each with its reason.</summary>
    public required IReadOnlyList<CarryItem> Carry { get; init; }

    /// <summary>How the kit was chosen, with coverage of each kind of failure; null when no kit was given.</summary>
    public KitPlan? KitPlan { get; init; }

    /// <summary>Charge in full: what fails first, what the loss of each lamp means, what to do the evening before; null without devices.</summary>
    public PowerPlan? PowerPlan { get; init; }

    /// <summary>What one incident at the worst place would do, as a what-if; empty when not computed.</summary>
    public string IncidentWhatIf { get; init; } = "";

    /// <summary>Which uncertain inputs drive the arrival, with their share of its variance [share of 1]; empty without samples.</summary>
    public required IReadOnlyList<(string Name, double ShareFraction)> Drivers { get; init; }

    /// <summary>The same for every number that is drawn; empty without samples.</summary>
    public IReadOnlyList<OutcomeDrivers> DriversOf { get; init; } = [];

    /// <summary>How far the numbers would still move with other samples; null with fewer than 256 samples.</summary>
    public SampleConvergence? Convergence { get; init; }

    /// <summary>What was not given, what stands in for it and what knowing it would change, the most valuable first.</summary>
    public IReadOnlyList<MissingInput> Missing { get; init; } = [];

    /// <summary>Samples drawn; 0 when ranges come from a closed form.</summary>
    public required int Samples { get; init; }

    /// <summary>What was taken for granted.</summary>
    public required IReadOnlyList<PlanAssumption> Assumptions { get; init; }

    /// <summary>What nobody checked.</summary>
    public required IReadOnlyList<string> NotChecked { get; init; }

    /// <summary>Findings, the gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The plan as plain text of 80 columns.</summary>
    /// <param name="options">Units and length; defaults when null.</param>
    /// <returns>Text with line feeds.</returns>
    public string ToText(PlanTextOptions? options = null) => PlanText.Plain(this, options ?? PlanTextOptions.Default);

    /// <summary>The plan as Markdown.</summary>
    /// <param name="options">Units and length; defaults when null.</param>
    /// <returns>Markdown with line feeds.</returns>
    public string ToMarkdown(PlanTextOptions? options = null) => PlanText.Markdown(this, options ?? PlanTextOptions.Default);

    /// <summary>The plan as one HTML page that prints in black and white: no script and no outside file.</summary>
    /// <param name="options">Units and length; defaults when null.</param>
    /// <returns>The document, lines ended by a line feed.</returns>
    public string ToHtml(PlanTextOptions? options = null) => Html.Page(Title, PlanHtml.Part(this, options ?? PlanTextOptions.Default));

    /// <inheritdoc/>
    string IShown.ToHtmlPart() => PlanHtml.Part(this, PlanTextOptions.Default);

    /// <summary>The plan as JSON: units in names, schema version, rounded per quantity, the same bytes everywhere.</summary>
    /// <returns>JSON text.</returns>
    public string ToJson() => PlanJson.Write(this);

    /// <summary>The plain text of the plan.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToText();
}
