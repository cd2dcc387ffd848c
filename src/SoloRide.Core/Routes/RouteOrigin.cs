using System.Collections.Immutable;
using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Where a borrowed track comes from: when and with what it was recorded, and what was checked since.</summary>
/// <remarks>Immutable.</remarks>
[Entry(NoOutsideCheck = "Dates and a list are taken over as they are; nothing is computed.")]
public sealed record RouteOrigin
{
    [Source("assumption-routes-season", "a season is 92 days")]
    private const int SeasonDays = 92;

    /// <summary>A season: tracks older than this may know nothing of the present state. 92 days.</summary>
    public static TimeSpan DefaultSeason { get; } = TimeSpan.FromDays(SeasonDays);

    /// <summary>First day of the recording (UTC); null when unknown.</summary>
    public DateOnly? RecordedFrom { get; init; }

    /// <summary>Last day of the recording (UTC); null when unknown.</summary>
    public DateOnly? RecordedTo { get; init; }

    /// <summary>What it was recorded with.</summary>
    public RecordingSensor Sensor { get; init => field = Guard.Defined(value, nameof(Sensor)); }

    /// <summary>Whether the sensor was recognised from the noise of the heights rather than stated.</summary>
    public bool IsSensorRecognised { get; init; }

    /// <summary>What the rider has checked; nothing unless stated.</summary>
    public IReadOnlyList<OriginCheck> Checked
    {
        get;
        init => field = [.. Guard.NotNull(value, nameof(Checked)).Select(c => Guard.Defined(c, nameof(Checked))).Distinct().Order()];
    } = [];

    /// <summary>What was not checked: access, permits, closures and season, unless stated otherwise.</summary>
    public IReadOnlyList<OriginCheck> NotChecked => [.. Enum.GetValues<OriginCheck>().Except(Checked)];

    /// <summary>The origin of a route by its times and the noise of its heights.</summary>
    /// <param name="route">The route as it was read; a change may have dropped its times.</param>
    /// <returns>The origin; without times date and sensor are unknown.</returns>
    /// <exception cref="ArgumentNullException">No route.</exception>
    public static RouteOrigin Of(RideRoute route)
    {
        Guard.NotNull(route);
        long first = long.MaxValue, last = RouteColumns.NoTime;
        foreach (long t in route.RecordedTicks)
        {
            if (t != RouteColumns.NoTime)
            {
                (first, last) = (Math.Min(first, t), Math.Max(last, t));
            }
        }

        if (last == RouteColumns.NoTime)
        {
            return new RouteOrigin();
        }

        RecordingSensor sensor = RecordingSensor.Unknown;
        bool recognised = false;
        if (route.HasHeights)
        {
            ElevationProfile profile = ElevationProfile.Of(route);
            sensor = profile.Source switch
            {
                HeightSource.Barometric => RecordingSensor.SatelliteAndBarometer,
                HeightSource.Satellite => RecordingSensor.Satellite,
                _ => RecordingSensor.Unknown,
            };
            recognised = sensor != RecordingSensor.Unknown && route.HeightSource == HeightSource.Recognised;
        }

        return new RouteOrigin { RecordedFrom = Day(first), RecordedTo = Day(last), Sensor = sensor, IsSensorRecognised = recognised };
    }

    /// <summary>What the origin means for a ride on a day.</summary>
    /// <param name="day">Day of the ride.</param>
    /// <param name="season">Age from which the track counts as old, 1 to 3 660 days; null for <see cref="DefaultSeason"/>.</param>
    /// <returns>Findings: an old or undated track, what was not checked, and what a line proves.</returns>
    /// <exception cref="ArgumentException">The season is outside its range, or the recording ends before it begins.</exception>
    public IReadOnlyList<Finding> FindingsOn(DateOnly day, TimeSpan? season = null)
    {
        double oldDays = Guard.InRange((season ?? DefaultSeason).TotalDays, 1, 3660, "days", nameof(season));
        if (RecordedFrom is { } a && RecordedTo is { } b && b < a)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The recording ends on {b:yyyy-MM-dd}, before it begins on {a:yyyy-MM-dd}."), nameof(day));
        }

        var findings = new List<Finding>();
        DateOnly? recorded = RecordedFrom ?? RecordedTo;
        if (recorded is not { } from)
        {
            findings.Add(new Finding(RoutesFindingCodes.UndatedTrack, FindingSeverity.Caution, "origin", "The track does not tell when it was recorded: take it as old. Washouts, fallen trees, new fences and closures since then are not in it."));
        }
        else
        {
            int age = day.DayNumber - from.DayNumber;
            if (age < 0)
            {
                findings.Add(new Finding(RoutesFindingCodes.UndatedTrack, FindingSeverity.Caution, "origin",
                    string.Create(CultureInfo.InvariantCulture, $"The track is dated {from:yyyy-MM-dd}, after the day of the ride, {day:yyyy-MM-dd}: its clock was wrong or the line was drawn. Take its age as unknown.")));
            }
            else if (age > oldDays)
            {
                findings.Add(new Finding(RoutesFindingCodes.OldTrack, FindingSeverity.Caution, "origin",
                    string.Create(CultureInfo.InvariantCulture, $"The track was recorded on {from:yyyy-MM-dd}, {age} days before the ride and more than a season ({Text.F(oldDays, 0)} days): washouts, fallen trees, new fences and closures since then are not in it."),
                    new FindingValue("age_days", age.ToString(CultureInfo.InvariantCulture))));
            }
        }

        if (NotChecked.Count > 0)
        {
            findings.Add(new Finding(RoutesFindingCodes.NotChecked, FindingSeverity.Caution, "origin", $"Not checked: {string.Join(", ", NotChecked.Select(c => c.ToString().ToLowerInvariant()))}. Ask who manages the land.",
                new FindingValue("not_checked", string.Join(' ', NotChecked.Select(c => c.ToString().ToLowerInvariant())))));
        }

        findings.Add(AccessFinding("origin"));
        return findings;
    }

    /// <summary>The origin of two tracks that became one: the older date, the sensor when both agree, and what was checked on both.</summary>
    /// <param name="other">The other origin.</param>
    /// <returns>The origin of the whole.</returns>
    /// <exception cref="ArgumentNullException">No other origin.</exception>
    public RouteOrigin And(RouteOrigin other)
    {
        Guard.NotNull(other);
        bool dated = (RecordedFrom ?? RecordedTo) is not null && (other.RecordedFrom ?? other.RecordedTo) is not null;
        return new RouteOrigin
        {
            // One part without a date leaves the whole without one.
            RecordedFrom = dated ? Least(RecordedFrom ?? RecordedTo, other.RecordedFrom ?? other.RecordedTo) : null,
            RecordedTo = dated ? Most(RecordedTo ?? RecordedFrom, other.RecordedTo ?? other.RecordedFrom) : null,
            Sensor = Sensor == other.Sensor ? Sensor : RecordingSensor.Unknown,
            IsSensorRecognised = Sensor == other.Sensor && (IsSensorRecognised || other.IsSensorRecognised),
            Checked = [.. Checked.Intersect(other.Checked)],
        };
    }

    /// <summary>What a line proves.</summary>
    internal static Finding AccessFinding(string subject) => new(RoutesFindingCodes.Access, FindingSeverity.Note, subject, RouteWriter.AccessCaution);

    /// <summary>Findings of a route with what a line proves among them, once: the first that says it stays, at the end when none does.</summary>
    internal static IReadOnlyList<Finding> WithAccess(IReadOnlyList<Finding> findings)
    {
        int said = 0;
        for (int i = 0; i < findings.Count; i++)
        {
            said += findings[i].Code == RoutesFindingCodes.Access ? 1 : 0;
        }

        return said == 1 ? findings
            : findings.Count == 0 ? AccessOnly
            : [.. findings.Where(f => f.Code != RoutesFindingCodes.Access), findings.FirstOrDefault(f => f.Code == RoutesFindingCodes.Access) ?? AccessOnly[0]];
    }

    private static ImmutableArray<Finding> AccessOnly { get; } = [AccessFinding("route")];

    private static DateOnly? Least(DateOnly? a, DateOnly? b) => a < b ? a : b;

    private static DateOnly? Most(DateOnly? a, DateOnly? b) => a > b ? a : b;

    private static DateOnly Day(long ticks) => DateOnly.FromDateTime(new DateTimeOffset(ticks, TimeSpan.Zero).UtcDateTime);
}
