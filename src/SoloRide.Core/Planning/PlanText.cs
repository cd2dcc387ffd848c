using System.Globalization;
using System.Text;
using SoloRide.Daylight;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>Writes a plan for people: one content, two layouts.</summary>
internal static class PlanText
{
    private const int Width = 80;
    private const int Indent = 15;
    private const int LeastColumn = 8;

    public static string Plain(RidePlan plan, PlanTextOptions options)
    {
        var u = new PlanUnits(options.Units);
        var b = new StringBuilder();
        (string left, string right) = Head(plan);
        Line(b, left, right);
        (left, right) = SubHead(plan, u);
        Line(b, left, right);
        b.Append('\n');
        foreach ((string label, string text) in Before(plan, u))
        {
            Paragraph(b, label, text);
        }

        if (plan.Stations.Count > 0)
        {
            b.Append('\n');
            Table(b, plan, u);
            b.Append('\n');
        }

        foreach ((string label, string text) in After(plan, u))
        {
            Paragraph(b, label, text);
        }

        Paragraph(b, "Caution", Cautions.Text);
        if (options.Details)
        {
            b.Append('\n');
            Details(plan, u, (label, text) => Paragraph(b, label, text));
        }

        return PlanTextOptions.Shown(options, b.ToString());
    }

    public static string Markdown(RidePlan plan, PlanTextOptions options)
    {
        var u = new PlanUnits(options.Units);
        var b = new StringBuilder();
        (string left, string right) = Head(plan);
        b.Append("# ").Append(Escape(plan.Title)).Append("\n\n").Append(Escape(right)).Append("  \n");
        (left, right) = SubHead(plan, u);
        b.Append(Escape(left)).Append("; ").Append(Escape(right)).Append("\n\n");
        foreach ((string label, string text) in Before(plan, u))
        {
            b.Append("**").Append(label).Append("** ").Append(Escape(text)).Append("\n\n");
        }

        if (plan.Stations.Count > 0)
        {
            b.Append(CultureInfo.InvariantCulture, $"| {u.DistanceUnit} | place | arrive | latest | light | air | water | way out on foot |\n|--:|---|---|---|---|--:|--:|---|\n");
            foreach (PlanStation s in plan.Stations)
            {
                b.Append("| ").AppendJoin(" | ", Cells(s, plan, u).Select(Escape)).Append(" |\n");
            }

            b.Append('\n');
        }

        foreach ((string label, string text) in After(plan, u))
        {
            b.Append("**").Append(label).Append("** ").Append(Escape(text)).Append("\n\n");
        }

        b.Append("**Caution** ").Append(Cautions.Text).Append("\n\n");
        if (options.Details)
        {
            b.Append('\n');
            Details(plan, u, (label, text) => b.Append("- ").Append(label.Length > 0 ? $"*{label}* " : "").Append(Escape(text)).Append('\n'));
        }

        return PlanTextOptions.Shown(options, b.ToString());
    }

    internal static string Range(Estimate<DateTimeOffset> e, ZoneOffsets zone, DateTimeOffset day)
    {
        string low = ClockOn(zone.ToLocal(e.Low), day), high = ClockOn(zone.ToLocal(e.High), day);
        return low == high ? low : low + "-" + high;
    }

    /// <summary>Stands after a time whose clock is not that of the start.</summary>
    internal const string Changed = "*";

    /// <summary>A time that must not be passed: the minute is never rounded up.</summary>
    internal static string Latest(DateTimeOffset t, RidePlan plan) => ClockOn(Down(plan.Zone.ToLocal(t)), plan.Start);

    /// <summary>Half a minute less, so that a clock that rounds to the nearest minute rounds down.</summary>
    internal static DateTimeOffset Down(DateTimeOffset t) => t.AddSeconds(-30);

    internal static string ClockOn(DateTimeOffset t, DateTimeOffset day)
    {
        int days = (int)(t.Date - day.Date).TotalDays;
        return Text.Clock(t) + (days == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{days:+0;-0}d")) + (t.Offset == day.Offset ? "" : Changed);
    }

    internal static (string Left, string Right) Head(RidePlan plan)
        => (plan.Title.ToUpperInvariant(), $"{Text.Date(plan.Start)}, start {Text.Clock(plan.Start)} ({Text.Offset(plan.Start.Offset)})");

    internal static (string Left, string Right) SubHead(RidePlan plan, PlanUnits u)
    {
        string up = plan.Ascent is { } a
            ? $", {u.Height(a.Typical.Meters)} up ({u.HeightNumber(a.Low.Meters)}-{u.HeightNumber(a.High.Meters)})"
            : ", heights unknown";
        return (u.Km(plan.Length.Meters) + up, plan.Samples > 0 ? "ranges hold for 8 rides in 10" : "ranges by a closed form, not sampled");
    }

    /// <summary>What stands before the table, in the units asked for.</summary>
    internal static IEnumerable<(string Label, string Text)> Before(RidePlan plan, PlanUnits u)
    {
        IReadOnlyList<string> names = PlanUnits.Names(plan);
        return BeforeTable(plan, u).Select(x => (x.Label, u.Words(x.Text, names)));
    }

    /// <summary>What stands after the table, in the units asked for.</summary>
    internal static IEnumerable<(string Label, string Text)> After(RidePlan plan, PlanUnits u)
    {
        IReadOnlyList<string> names = PlanUnits.Names(plan);
        return AfterTable(plan, u).Select(x => (x.Label, u.Words(x.Text, names)));
    }

    private static IEnumerable<(string Label, string Text)> BeforeTable(RidePlan plan, PlanUnits u)
    {
        yield return ("Does it fit?", plan.Verdict.Sentence + (plan.Verdict.Reasons.Count > 0 ? " " + string.Join(" ", plan.Verdict.Reasons) : ""));
        if (plan.Margins.Count > 0)
        {
            string list = string.Join(" ", plan.Margins.Take(4).Select((m, i) => (i == 0 ? "" : i == 1 ? "Next, " : "Then ") + Margin(m, i == 0)));
            yield return ("What limits", list);
        }

        if (plan.Finish is { } f)
        {
            string dark = plan.Dark is { } d && d.High > TimeSpan.FromMinutes(1) ? $" In the dark {Text.Span(d.Low)} to {Text.Span(d.High)}." : "";
            yield return ("Finish", $"{Range(f, plan.Zone, plan.Start)}; 19 of 20 such rides by {ClockOn(plan.Zone.ToLocal(plan.LateFinish ?? f.High), plan.Start)}.{dark}");
        }

        if (plan.Verdict.Kind != PlanVerdictKind.Refused)
        {
            yield return ("Latest start", plan.LatestStart is { } s
                ? $"{Latest(s, plan)} ({plan.LatestStartReason})."
                : plan.LatestStartReason.Length > 0 ? plan.LatestStartReason : "No clock limits it.");
        }

        if (plan.Levers.Count > 0)
        {
            yield return ("Helps most", Helps(plan));
        }

        if (plan.PointsOfNoReturn.Count > 0)
        {
            yield return ("No return", string.Join(" ", plan.PointsOfNoReturn.Select(p => $"Past {u.At(p.AlongRoute.Meters)} ({ClockOn(plan.Zone.ToLocal(p.At), plan.Start)}) {(p.Resource == ResourceKind.Water ? "water" : "light")} no longer lasts back to the start.")));
        }

        if (plan.Alternates is { } alternates && Alternates(plan, alternates, u) is { Length: > 0 } other)
        {
            yield return ("Alternate", other);
        }
    }

    /// <summary>Other ends: where, when, past which time; the rule when it asks for one; and the walk out when one way out is barred.</summary>
    private static string Alternates(RidePlan plan, PlanAlternates a, PlanUnits u)
    {
        var parts = new List<string>();
        if (a.Ends.Count > 0)
        {
            parts.Add($"End instead at {string.Join(", or at ", a.Ends.Select(e => $"{e.Name} ({u.At(e.AlongRoute.Meters)}, {Range(e.Arrival, plan.Zone, plan.Start)}{(e.GoOnUntil is { } t ? $"; past {ClockOn(plan.Zone.ToLocal(t), plan.Start)} always" : "")})"))}.");
        }

        if (a.Required)
        {
            parts.Add(a.Ends.Count > 0 ? $"Tell home which: {a.Reason}." : $"No other end is known, and one is wanted: {a.Reason}.");
        }

        if (a.IfBarred is { } s)
        {
            parts.Add(s.WalkOut is { } time
                ? $"If {s.Barred} is barred, the longest way out is {Text.Span(time.Typical)} ({Text.Span(time.Low)} to {Text.Span(time.High)}) on foot, from {u.At(s.WorstAt!.Value.Meters)} to {s.ExitName}."
                : $"If {s.Barred} is barred, no other way out is known.");
        }

        return string.Join(" ", parts);
    }

    private static string Helps(RidePlan plan)
    {
        // A change helps when people can see it: another verdict, or another amount in hand.
        LeverEffect? single = plan.Levers.FirstOrDefault(l => l.GainFraction > 0 && (l.Kind < plan.Verdict.Kind || l.BaseMargin?.Amount != l.NewMargin?.Amount));
        LeverEffect? fits = plan.Levers.FirstOrDefault(l => l.Kind < plan.Verdict.Kind && l != single);
        string text = single is null ? "None of the changes tried helps." : char.ToUpperInvariant(single.Sentence[0]) + single.Sentence[1..] + ".";
        return fits is null || single?.Kind < plan.Verdict.Kind ? text : text + " Or " + fits.Sentence + ".";
    }

    private static string Margin(PlanMargin m, bool first)
    {
        string name = first ? char.ToUpperInvariant(m.Name[0]) + m.Name[1..] : m.Name;
        string p = double.IsNaN(m.ShortfallProbability) ? "" : m.ShortfallProbability < 0.005 ? "" : $" (short in {Chance(m.ShortfallProbability)})";
        return $"{name}: {m.Amount}{p}.";
    }

    internal static string Chance(double p)
        => p <= 0 ? "none of the rides sampled"
        : p < 0.01 ? "fewer than 1 ride in 100"
        : p < 0.095 ? Rides(Math.Round(p * 100), "100")
        : p > 0.95 ? "nearly every ride"
        : Rides(Math.Round(p * 10), "10");

    private static string Rides(double n, string of) => n == 1 ? $"1 ride in {of}" : $"{Text.F(n, 0)} rides in {of}";

    private static IEnumerable<(string Label, string Text)> AfterTable(RidePlan plan, PlanUnits u)
    {
        if (plan.BikeFails is { } w)
        {
            string how = w.Mode == TravelMode.Push ? "pushing the bike" : w.Mode == TravelMode.Carry ? "carrying the bike" : "the bike left behind";
            string dark = w.Dark > TimeSpan.FromMinutes(5) ? $", {Text.Span(w.Dark)} of it in the dark if it happens late" : "";
            yield return ("Bike fails", string.Create(CultureInfo.InvariantCulture,
                $"Worst at {u.At(w.WorstAt.Meters)}: {Text.Span(w.WalkOut.Typical)} ({Text.Span(w.WalkOut.Low)} to {Text.Span(w.WalkOut.High)}) on foot to {w.ExitName}, {how}{dark}; needs {u.LitresUp(w.Water.Liters)} and {Text.Thousands(w.Food.Kilocalories)} kcal. Over 1 h away on {w.Remote.OverOneHourFraction * 100:F0} % of the route, over 2 h on {w.Remote.OverTwoHoursFraction * 100:F0} %."));
        }

        if (plan.BikeFails is null && plan.Verdict.Kind != PlanVerdictKind.Refused)
        {
            yield return ("Bike fails", "No way out is known, so no walk out is planned: name roads and houses that can be reached, or be ready to wait where you are.");
        }

        if (plan.IncidentWhatIf.Length > 0)
        {
            yield return ("What if", plan.IncidentWhatIf);
        }

        if (plan.CannotMove is { } c)
        {
            string wait = c.TolerableWait is { } t ? $" Waiting can be borne about {Text.Span(t)} ({c.LimitedBy})." : "";
            string heard = c.Detection.Worst > TimeSpan.Zero
                ? $"Nobody hears a call: silence is noticed {Text.Span(c.Detection.Mean)} after the event on average, {Text.Span(c.Detection.Worst)} at worst; help assumed {Text.Span(c.Response)} after that ({c.ResponseClass})."
                : $"Call at once by messenger or beacon; help assumed within {Text.Span(c.Response)} ({c.ResponseClass}).";
            yield return ("Cannot move", $"{heard}{wait} Have: {string.Join(", ", c.Carry)}.");
        }

        if (plan.Home is { } h)
        {
            string words = string.Join(", ", h.CheckIns.Select(k => $"{ClockOn(plan.Zone.ToLocal(k.At), plan.Start)} {k.What}"));
            yield return ("For home", $"Messages: {words}. Back {Range(h.Back, plan.Zone, plan.Start)}. Late at {ClockOn(plan.Zone.ToLocal(h.Overdue), plan.Start)}. At {ClockOn(plan.Zone.ToLocal(h.Alarm), plan.Start)} call the number on the sheet; read the sheet out.");
        }

        if (plan.Needs is { } n)
        {
            string fills = string.Join("; ", n.Fills.Select((x, i) => i == 0
                ? $"start with {u.LitresUp(x.FillTo.Liters)}"
                : $"at {x.Name} ({u.At(x.AlongRoute.Meters)}) fill to {u.LitresUp(x.FillTo.Liters)}"));
            yield return ("Water", $"{char.ToUpperInvariant(fills[0])}{fills[1..]}. Sweat {u.LitresNumber(n.Sweat.Low.Liters)}-{u.Litres(n.Sweat.High.Liters)}, planned drink {u.LitresNumber(n.Drink.Low.Liters)}-{u.Litres(n.Drink.High.Liters)}. Carry by the upper figure, drink by thirst, never more than you lose."
                + (n.IfDry.Count > 0 ? " " + string.Join(" ", n.IfDry) : ""));
            yield return ("Salt and food", string.Create(CultureInfo.InvariantCulture,
                $"Sweat takes {n.Sodium.Low.Grams:F1}-{n.Sodium.High.Grams:F1} g sodium. Energy {Text.Thousands(n.Energy.Low.Kilocalories)}-{Text.Thousands(n.Energy.High.Kilocalories)} kcal; eat {Text.Thousands(n.Food.Kilocalories)} kcal on the way ({n.CarbohydrateGPerHour.LowGPerHour:F0}-{n.CarbohydrateGPerHour.HighGPerHour:F0} g carbohydrate an hour) and keep {Text.Thousands(n.FoodReserve.Kilocalories)} kcal unopened."));
        }

        if (plan.Heat is { } heat && plan.Hours.Count > 0)
        {
            yield return ("Heat", Heat(plan, heat, u));
        }

        if (plan.Sun is { } sun)
        {
            yield return ("Sun", Sun(plan, sun));
        }

        if (plan.Carry.Count > 0)
        {
            yield return ("Carry", string.Join("; ", plan.Carry.Select(i => $"{i.Name} ({i.Reason})")) + ".");
        }

        if (plan.Devices.Count > 0)
        {
            yield return ("Charge", string.Join("; ", plan.Devices.Select(d => string.Create(CultureInfo.InvariantCulture,
                $"{d.Name} {d.AtFinish.Typical.Percent:F0} % left ({d.AtFinish.Low.Percent:F0}-{d.AtFinish.High.Percent:F0}), lasts {Share(d.LastsProbability)}, a night out too {Share(d.NightOutProbability)}{(d.Note.Length > 0 ? ": " + d.Note : "")}"))) + ".");
        }

        if (plan.Drivers.Count > 0)
        {
            yield return ("Uncertain", "What the arrival hangs on: " + string.Join(", ", plan.Drivers.Take(3).Select(d => string.Create(CultureInfo.InvariantCulture, $"{d.Name} {d.ShareFraction * 100:F0} %"))) + " of its variance.");
        }

        if (plan.Missing.Count > 0)
        {
            yield return ("Not given", NotGiven(plan.Missing));
        }

        string[] grave = [.. plan.Heed()];
        if (grave.Length > 0)
        {
            yield return ("Heed", string.Join(" ", grave));
        }

        if (plan.Checked.Count > 0)
        {
            yield return ("Checked", string.Join(", ", plan.Checked.Select(c => $"{c.What} {PlanBuilder.Day(c.On)}")) + ".");
        }

        if (plan.NotChecked.Count > 0)
        {
            yield return ("Not checked", string.Join(", ", plan.NotChecked) + ".");
        }
    }

    private static string Heat(RidePlan plan, PlanHeat heat, PlanUnits u)
    {
        DateTimeOffset end = plan.LateFinish ?? plan.Finish!.High;
        PlanHour hottest = plan.Hours.Where((h, i) => i == 0 || h.At <= end).MaxBy(h => h.WetBulbGlobe.DegreesCelsius)!;
        string limit = heat.LimitReached is { } at ? $", past {u.Temperature(HeatAlong.LimitC, 1)} from {ClockOn(plan.Zone.ToLocal(at), plan.Start)}" : "";
        string chance = double.IsNaN(heat.LimitProbability) ? "" : heat.LimitReached is null ? $"; {u.Temperature(HeatAlong.LimitC, 1)} passed in {Chance(heat.LimitProbability)}" : $" (in {Chance(heat.LimitProbability)})";
        string air = $"Wet-bulb globe up to {u.Temperature(hottest.WetBulbGlobe.DegreesCelsius)} at {ClockOn(plan.Zone.ToLocal(hottest.At), plan.Start)}.";
        if (heat.PastBearable)
        {
            return $"{air} Body core by model past any bearable value{limit}{chance}. No figure is told: do not ride in such heat.";
        }

        string high = heat.HighestCore.High.DegreesCelsius > HeatAlong.BearableC ? "past any bearable value" : u.Temperature(heat.HighestCore.High.DegreesCelsius, 1);
        return $"{air} Body core by model {u.Temperature(heat.HighestCore.Typical.DegreesCelsius, 1)} at most ({u.Temperature(heat.HighestCore.Low.DegreesCelsius, 1)} to {high}), {u.At(heat.HighestAt.Meters)}{limit}{chance}. Compare plans by it; heed the body first.";
    }

    private static string Sun(RidePlan plan, PlanSun sun)
    {
        string last = sun.LastSun is { } at
            ? sun.SunToTheEnd
                ? $" In the sun to the end; it leaves the finish at {ClockOn(plan.Zone.ToLocal(at), plan.Start)}."
                : $" Last direct sun {ClockOn(plan.Zone.ToLocal(at), plan.Start)}."
            : "";
        string unknown = sun.SkylineUnknown >= TimeSpan.FromMinutes(1) ? $", skyline not known for {Text.Span(sun.SkylineUnknown)}" : "";
        return $"Direct {Text.Span(sun.DirectSun)} (cloud not counted), in the shade of terrain {Text.Span(sun.TerrainShade)}{unknown}.{last}";
    }

    /// <summary>The three whose knowledge is worth most, with what stands in; the others by name.</summary>
    private static string NotGiven(IReadOnlyList<MissingInput> missing)
    {
        const int told = 3;
        const double leastShare = 0.01;
        MissingInput[] order = [.. missing.OrderByDescending(m => double.IsNaN(m.ShareFraction) ? 0 : m.ShareFraction)];
        string first = string.Join(" ", order.Take(told).Select(m =>
            $"{char.ToUpperInvariant(m.Name[0])}{m.Name[1..]}: {m.StandIn}{(m.ShareFraction >= leastShare ? $"; knowing it takes up to {Text.F(m.ShareFraction * 100, 0)} % off the variance of {m.Outcome}" : $"; {m.Effect}")}."));
        return order.Length > told ? $"{first} Also: {string.Join(", ", order.Skip(told).Select(m => m.Name))}." : first;
    }

    private static string Share(double p)
        => double.IsNaN(p) ? "not sampled" : p > 0.985 ? "in at least 99 of 100" : string.Create(CultureInfo.InvariantCulture, $"in {p * 100:F0} of 100");

    internal static string[] Columns(PlanUnits u) => [u.DistanceUnit, "place", "arrive", "latest", "light", "air", "water", "way out on foot"];

    /// <summary>Columns with names fold onto further lines; numbers, times and headings are never cut.</summary>
    private static void Table(StringBuilder b, RidePlan plan, PlanUnits u)
    {
        const int name = 1, out1 = 7;
        string[] head = Columns(u);
        var rows = new List<string[]> { head };
        rows.AddRange(plan.Stations.Select(s => Cells(s, plan, u)));
        int[] width = [.. Enumerable.Range(0, head.Length).Select(c => rows.Max(r => r[c].Length))];
        int room = Width - (width.Sum() - width[name] - width[out1] + (2 * (head.Length - 1)));
        if (width[name] + width[out1] > room)
        {
            int half = Math.Max(LeastColumn, room / 2);
            width[out1] = Math.Max(Math.Min(width[out1], half), room - width[name]);
            width[name] = Math.Max(LeastColumn, Math.Min(width[name], room - width[out1]));
        }

        foreach (string[] row in rows)
        {
            string[][] cells = [.. row.Select((c, i) => i is name or out1 ? [.. Folded(c, width[i])] : new[] { c })];
            for (int l = 0; l < cells.Max(c => c.Length); l++)
            {
                var line = new StringBuilder();
                for (int c = 0; c < row.Length; c++)
                {
                    string cell = l < cells[c].Length ? cells[c][l] : "";
                    line.Append(c is 0 or 5 or 6 ? cell.PadLeft(width[c]) : cell.PadRight(width[c])).Append(c == row.Length - 1 ? "" : "  ");
                }

                b.Append(line.ToString().TrimEnd()).Append('\n');
            }
        }
    }

    internal static string[] Cells(PlanStation s, RidePlan plan, PlanUnits u) =>
    [
        u.KmShort(s.AlongRoute.Meters),
        s.Name,
        Range(s.Arrival, plan.Zone, plan.Start),
        s.LatestPass is { } l ? Latest(l, plan) : "-",
        s.Light switch
        {
            LightPhase.Day => "day",
            LightPhase.CivilTwilight => "dim",
            null => "-",
            _ => "dark",
        },
        s.AirTemperature is { } t ? u.Temperature(t.DegreesCelsius) : "-",
        s.Kind == StationKind.Start ? u.LitresUp(s.WaterInHand.Typical.Liters) : u.Litres(s.WaterInHand.Typical.Liters),
        s.WayOut is { } w ? (w < TimeSpan.FromMinutes(1) ? "here" : $"{Text.Span(w)} {s.WayOutTo}") : "-",
    ];

    internal static void Details(RidePlan plan, PlanUnits u, Action<string, string> write)
    {
        IReadOnlyList<string> names = PlanUnits.Names(plan);
        foreach (PlanAssumption a in plan.Assumptions)
        {
            write("Assumed", u.Words($"{a.Name}: {a.Value}", names) + (a.SourceId.Length > 0 ? $" [{a.SourceId}]" : ""));
        }

        foreach (Finding f in plan.Findings)
        {
            write(f.Severity.ToString(), f.Subject.Length > 0 ? $"{f.Subject}: {u.Words(f.Message, names)}" : u.Words(f.Message, names));
        }
    }

    private static void Line(StringBuilder b, string left, string right)
    {
        int gap = Width - left.Length - right.Length;
        if (gap >= 2)
        {
            b.Append(left).Append(' ', gap).Append(right).Append('\n');
        }
        else
        {
            Wrap(b, left, Width);
            Wrap(b, right, Width);
        }
    }

    internal static void Paragraph(StringBuilder b, string label, string text)
        => Render.Wrap(b, Ascii(text), Width, label.Length >= Indent ? label + " " : label.PadRight(Indent), "".PadRight(Indent));

    /// <summary>Words in lines of a width.</summary>
    internal static void Wrap(StringBuilder b, string text, int width) => Render.Wrap(b, text, width);

    /// <summary>A text in lines of a width; at least one.</summary>
    internal static IEnumerable<string> Folded(string text, int width)
    {
        var b = new StringBuilder();
        Render.Wrap(b, text, width);
        return b.ToString().TrimEnd('\n').Split('\n');
    }

    /// <summary>Signs outside ASCII that the library itself writes become ASCII; names keep theirs.</summary>
    private static string Ascii(string text) => text.Replace('\u2013', '-').Replace('\u00A0', ' ').Replace("°", " deg", StringComparison.Ordinal);

    private static string Escape(string text) => text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("|", "\\|", StringComparison.Ordinal).Replace("*", "\\*", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal).Replace("`", "\\`", StringComparison.Ordinal).Replace("<", "&lt;", StringComparison.Ordinal);
}
