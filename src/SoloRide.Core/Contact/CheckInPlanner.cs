using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>Works out when messages are due, when the rider is overdue, and when the contact calls.</summary>
/// <remarks>
/// The interval is a result: tolerated wait minus grace, reaction and response. Messages go at every decision point and, between them, by the clock.
/// Where no message passes, the schedule says which silence is normal. Without state; safe on any number of threads. A planning aid: doubt means call early.
/// Sources: derived-detection, nz-intentions, aviation-overdue.
/// </remarks>
[Entry]
public static class CheckInPlanner
{
    /// <summary>Messages by the clock are not planned closer than this.</summary>
    [Source("assumption-contact", "shortest interval by the clock")]
    private static readonly TimeSpan ShortestInterval = TimeSpan.FromMinutes(15);

    // Clock times are cut down to multiples of this, for people.
    private static readonly TimeSpan Round = TimeSpan.FromMinutes(5);

    /// <summary>Works out the schedule.</summary>
    /// <param name="request">Decision points, tolerated wait and the rest.</param>
    /// <returns>The schedule.</returns>
    /// <exception cref="ArgumentException">Not exactly one start and one finish, a point outside them, a late finish before the typical one, or a ride longer than 60 days.</exception>
    public static CheckInSchedule Plan(CheckInRequest request)
    {
        (DecisionPoint start, DecisionPoint finish, DecisionPoint[] points) = Check(Guard.NotNull(request));
        var findings = new List<Finding>();
        Past(request, start, findings);
        if (request.Means.Count == 0)
        {
            findings.Add(new Finding(ContactFindingCodes.NoMeans, FindingSeverity.Caution, "means", "Nothing to call with is given: whether messages can pass is not known."));
        }

        double intervalS = CheckInKernel.LongestIntervalS(request.ToleratedWait.TotalSeconds, request.Grace.TotalSeconds, request.Reaction.TotalSeconds, request.Response.TotalSeconds);
        TimeSpan? interval = intervalS > 0 ? TimeSpan.FromSeconds(Math.Floor(intervalS)) : null;
        bool byClock = interval >= ShortestInterval;
        if (interval is null)
        {
            findings.Add(new Finding(
                ContactFindingCodes.NoInterval, FindingSeverity.Warning, "check-in interval",
                $"No interval is short enough: the rider can wait {Text.Span(request.ToleratedWait)}; grace {Text.Span(request.Grace)}, the contact's reaction {Text.Span(request.Reaction)} and the response {Text.Span(request.Response)} take {Text.Span(request.Grace + request.Reaction + request.Response)}. Carry what lets you wait longer, or a means of calling that needs nobody at home.",
                new FindingValue("short_min", Text.F(-intervalS / 60, 0))));
        }
        else if (!byClock)
        {
            findings.Add(new Finding(
                ContactFindingCodes.IntervalTooShort, FindingSeverity.Warning, "check-in interval",
                $"A message every {Text.Span(interval.Value)} would be needed; none are planned closer than {Text.Span(ShortestInterval)}. Carry what lets you wait longer."));
        }

        List<CheckIn> checkIns = Times(request, points, byClock ? interval : null);
        (TimeSpan silence, CheckIn after) = LongestSilence(checkIns);
        if (interval is { } most && silence > most + Round)
        {
            findings.Add(new Finding(
                ContactFindingCodes.SilenceTooLong, FindingSeverity.Warning, after.Name,
                $"Before '{after.Name}' silence may last {Text.Span(silence)}; help would come in time after at most {Text.Span(most)}.",
                new FindingValue("silence_min", Text.F(silence.TotalMinutes, 0)), new FindingValue("longest_min", Text.F(most.TotalMinutes, 0))));
        }

        if (checkIns.Any(c => c.CanPass == Known.Unknown))
        {
            findings.Add(new Finding(
                ContactFindingCodes.ReachUnknown, FindingSeverity.Note, "signal and sky",
                $"Whether a message can pass is not known at: {string.Join(", ", checkIns.Where(c => c.CanPass == Known.Unknown).Select(c => c.Name).Distinct())}."));
        }

        DateTimeOffset overdue = request.LateFinish + request.Grace, alarm = overdue + request.Reaction;
        foreach (CommunicationMeans m in request.Means)
        {
            if (m.BatteryLasts is { } lasts && start.Expected + lasts < alarm)
            {
                findings.Add(new Finding(
                    ContactFindingCodes.BatteryShort, FindingSeverity.Warning, m.Kind.ToString(),
                    $"The charge of the {Means(m.Kind)} lasts {Text.Span(lasts)}, not until the alarm time {Text.Span(alarm - start.Expected)} after the start."));
            }
        }

        return new CheckInSchedule
        {
            LongestInterval = interval,
            LongestSilence = silence,
            MeanDetection = TimeSpan.FromSeconds(CheckInKernel.MeanDetectionS(silence.TotalSeconds, request.Grace.TotalSeconds)),
            WorstDetection = TimeSpan.FromSeconds(CheckInKernel.WorstDetectionS(silence.TotalSeconds, request.Grace.TotalSeconds)),
            CheckIns = checkIns,
            OverdueTime = overdue,
            AlarmTime = alarm,
            Grace = request.Grace,
            Phases = Phases(request, overdue, alarm),
            NormalSilence = NormalSilence(request),
            WhatSilenceMeans = Silence(request, checkIns),
            Findings = findings,
        };
    }

    internal static string Means(MeansKind kind) => kind switch
    {
        MeansKind.Telephone => "telephone",
        MeansKind.SatelliteMessenger => "satellite messenger",
        MeansKind.DistressBeacon => "distress beacon",
        _ => "radio",
    };

    private static (DecisionPoint Start, DecisionPoint Finish, DecisionPoint[] Points) Check(CheckInRequest request)
    {
        DecisionPoint[] starts = [.. request.Points.Where(p => p.Kind == CheckInKind.Start)], finishes = [.. request.Points.Where(p => p.Kind == CheckInKind.Finish)];
        if (starts.Length != 1 || finishes.Length != 1)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Exactly one start and one finish are needed among the points; got {starts.Length} and {finishes.Length}."), nameof(request));
        }

        DecisionPoint start = starts[0], finish = finishes[0];
        if (finish.Expected <= start.Expected || finish.Expected - start.Expected > TimeSpan.FromDays(60))
        {
            throw new ArgumentException($"The finish must lie after the start, within 60 days; got {Text.Date(start.Expected)} {Text.Clock(start.Expected)} to {Text.Date(finish.Expected)} {Text.Clock(finish.Expected)}.", nameof(request));
        }

        if (request.LateFinish < finish.Expected)
        {
            throw new ArgumentException($"The late finish {Text.Clock(request.LateFinish)} on {Text.Date(request.LateFinish)} lies before the typical one, {Text.Clock(finish.Expected)} on {Text.Date(finish.Expected)}.", nameof(request));
        }

        if (request.Points.FirstOrDefault(p => p.Expected < start.Expected || p.Expected > finish.Expected) is { } outside)
        {
            throw new ArgumentException($"The point '{outside.Name}' at {Text.Clock(outside.Expected)} on {Text.Date(outside.Expected)} lies outside the ride.", nameof(request));
        }

        // Points of one instant keep the caller's order, but the ride starts first and ends last.
        return (start, finish, [start, .. request.Points.Where(p => p != start && p != finish).OrderBy(p => p.Expected), finish]);
    }

    private static void Past(CheckInRequest request, DecisionPoint start, List<Finding> findings)
    {
        if (request.PreparedAt is not { } now)
        {
            findings.Add(new Finding(ContactFindingCodes.NowUnknown, FindingSeverity.Note, "prepared at", "When the plan was made is not given: nothing is called past."));
        }
        else if (start.Expected < now)
        {
            findings.Add(new Finding(
                ContactFindingCodes.InThePast, FindingSeverity.Warning, start.Name,
                $"The start, {Text.Date(start.Expected)} {Text.Clock(start.Expected)}, lies before the plan was made, {Text.Date(now.ToOffset(start.Expected.Offset))} {Text.Clock(now.ToOffset(start.Expected.Offset))}."));
        }
    }

    private static List<CheckIn> Times(CheckInRequest request, DecisionPoint[] points, TimeSpan? interval)
    {
        var checkIns = new List<CheckIn>();
        var counts = new Dictionary<CheckInKind, int>();
        DateTimeOffset last = points[0].Expected;
        foreach (DecisionPoint p in points)
        {
            Known can = Reach(request, p.Expected);
            DateTimeOffset late = p.Kind == CheckInKind.Finish && request.LateFinish > p.Late ? request.LateFinish : p.Late;
            DateTimeOffset first = can == Known.No ? NextReach(request, p.Expected) ?? late : p.Expected;
            DateTimeOffset due = first > late ? first : late;
            if (p.Kind != CheckInKind.Start && interval is { } step)
            {
                while (due - last > step)
                {
                    DateTimeOffset t = Down(last + step, last);
                    if (Reach(request, t) == Known.No)
                    {
                        DateTimeOffset? before = LastReach(request, t);
                        t = before > last ? before.Value : NextReach(request, t) ?? due;
                    }

                    if (t >= due)
                    {
                        break;
                    }

                    string name = t > first ? $"by the clock, if not yet at {p.Name}" : "by the clock";
                    checkIns.Add(Make(request, counts, CheckInKind.Clock, name, t, t, Reach(request, t), null));
                    last = t;
                }
            }

            checkIns.Add(Make(request, counts, p.Kind, p.Name, first, due, can, p.Place));
            last = first > last ? first : last;
        }

        return [.. checkIns.Select((c, i) => (c, i)).OrderBy(x => x.c.Kind == CheckInKind.Finish ? 1 : 0).ThenBy(x => x.c.Expected).ThenBy(x => x.i).Select(x => x.c)];
    }

    private static CheckIn Make(CheckInRequest request, Dictionary<CheckInKind, int> counts, CheckInKind kind, string name, DateTimeOffset expected, DateTimeOffset due, Known can, GeoPoint? place)
    {
        int n = counts[kind] = counts.GetValueOrDefault(kind) + 1;
        string word = kind switch
        {
            CheckInKind.PointOfNoReturn => "no-return",
            _ => kind.ToString().ToLowerInvariant(),
        };
        string key = kind is CheckInKind.Start or CheckInKind.Finish ? word : string.Create(CultureInfo.InvariantCulture, $"{word}-{n}");
        DateTimeOffset watch = due + request.Grace;
        return new CheckIn(key, kind, name, expected, due, watch, watch + request.Reaction, can, place);
    }

    private static DateTimeOffset Down(DateTimeOffset t, DateTimeOffset after)
    {
        DateTimeOffset cut = new(t.Ticks - (t.Ticks % Round.Ticks), t.Offset);
        return cut > after ? cut : t;
    }

    private static (TimeSpan Silence, CheckIn After) LongestSilence(List<CheckIn> checkIns)
    {
        // A late rider's next message comes at its due time; what came before was sent at its typical time at the earliest.
        TimeSpan longest = TimeSpan.Zero;
        CheckIn at = checkIns[^1];
        DateTimeOffset last = checkIns[0].Expected;
        foreach (CheckIn c in checkIns.Skip(1).OrderBy(c => c.Due))
        {
            if (c.Due - last > longest)
            {
                longest = c.Due - last;
                at = c;
            }

            last = c.Expected > last ? c.Expected : last;
        }

        return (longest, at);
    }

    private static Known Reach(CheckInRequest request, DateTimeOffset t)
    {
        ContactStretch? s = request.Stretches.FirstOrDefault(x => x.From <= t && t < x.To);
        return s is null ? Known.Unknown : Reach(request, s);
    }

    private static Known Reach(CheckInRequest request, ContactStretch s)
    {
        bool any = request.Means.Count == 0;
        bool phone = any || request.Means.Any(m => m.Kind == MeansKind.Telephone);
        bool sky = any || request.Means.Any(m => m.Kind == MeansKind.SatelliteMessenger);
        bool radio = request.Means.Any(m => m.Kind == MeansKind.Radio);
        return (phone && s.PhoneSignal == Known.Yes) || (sky && s.OpenSky == Known.Yes) ? Known.Yes
            : (phone && s.PhoneSignal == Known.Unknown) || (sky && s.OpenSky == Known.Unknown) || radio ? Known.Unknown
            : Known.No;
    }

    // First instant from t on at which it is not known that nothing passes.
    private static DateTimeOffset? NextReach(CheckInRequest request, DateTimeOffset t)
    {
        for (int i = 0; i <= request.Stretches.Count; i++)
        {
            ContactStretch? s = request.Stretches.FirstOrDefault(x => x.From <= t && t < x.To);
            if (s is null || Reach(request, s) != Known.No)
            {
                return t;
            }

            t = s.To;
        }

        return null;
    }

    // Last whole minute before t at which it is not known that nothing passes.
    private static DateTimeOffset? LastReach(CheckInRequest request, DateTimeOffset t)
    {
        for (int i = 0; i <= request.Stretches.Count; i++)
        {
            ContactStretch? s = request.Stretches.FirstOrDefault(x => x.From <= t && t < x.To);
            if (s is null || Reach(request, s) != Known.No)
            {
                return t;
            }

            t = s.From.AddMinutes(-1);
        }

        return null;
    }

    [Source("nz-intentions", "what the contact does")]
    [Source("icao-annex-12", "names of the phases, published rule TP9")]
    private static EscalationStep[] Phases(CheckInRequest request, DateTimeOffset overdue, DateTimeOffset alarm)
    {
        EscalationStep watch = new(
            EscalationPhase.Watch, null, $"A message is missing {Text.Span(request.Grace)} after its time.",
            ["Read the last position and its time.", "Send the rider a message and ask for an answer.", "Call companions and people named on this sheet."]);
        EscalationStep uncertainty = new(
            EscalationPhase.Uncertainty, overdue, "The rider is overdue, or a second message is missing.",
            ["Try the rider, friends and the places on this sheet.", "Write down what you did and when.", "Have this sheet ready."]);
        EscalationStep alert = new(
            EscalationPhase.Alert, alarm, request.EarlyAlarm ? "Early alarm was asked for: nothing heard by then." : "Nothing heard by then.",
            ["Try the rider once more.", "Call the agency and read this sheet out.", "Stay reachable; pass on every later message."]);
        EscalationStep distress = new(
            EscalationPhase.Distress, null, "A call for help came, or there is evidence of trouble, or weather or health leave no time.",
            ["Call the agency at once; do not wait for any time on this sheet."]);
        return request.EarlyAlarm ? [watch, alert, distress] : [watch, uncertainty, alert, distress];
    }

    private static ContactStretch[] NormalSilence(CheckInRequest request) => [.. request.Stretches.OrderBy(x => x.From).Where(x => Reach(request, x) == Known.No)];

    private static string At(DateTimeOffset t) => $"{Text.Clock(t)} on {Text.Date(t)} ({Text.Offset(t.Offset)})";

    private static List<string> Silence(CheckInRequest request, List<CheckIn> checkIns)
    {
        var lines = new List<string>();
        foreach (ContactStretch s in NormalSilence(request))
        {
            bool oneDay = s.From.Offset == s.To.Offset && Text.Date(s.From) == Text.Date(s.To);
            lines.Add($"Silence from {(oneDay ? Text.Clock(s.From) : At(s.From))} to {At(s.To)} is normal: no message passes on '{s.Name}'.");
        }

        lines.Add($"A message may come up to {Text.Span(request.Grace)} late; that alone is no reason to worry.");
        lines.Add($"Any other silence counts as need: act {Text.Span(request.Grace)} after the time of the missing message and call {Text.Span(request.Reaction)} later.");
        lines.Add("A word from the rider (\"late but fine\") moves all times by what it says.");
        return lines;
    }
}
