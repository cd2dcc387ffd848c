using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>The inspection before a ride: what to look at, what is due by the maker's sheet, what voids the plan.</summary>
/// <remarks>
/// Common practice of the trade, no published source; no benefit in numbers is claimed. Immutable.
/// </remarks>
[Entry(NoOutsideCheck = "lists of common practice; limits are the caller's own")]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record InspectionSheet
{
    private const int Columns = 80;

    private InspectionSheet(InspectionForm form, IReadOnlyList<InspectionCheck> checks, IReadOnlyList<Finding> findings, bool voids)
    {
        Form = form;
        Checks = checks;
        Findings = findings;
        PlanIsVoid = voids;
    }

    /// <summary>Everything that the long form holds.</summary>
    [Source("practice-inspection", "by system")]
    public static IReadOnlyList<InspectionCheck> AllChecks { get; } =
    [
        new("tyres.tread", BikeSystem.Tyres, "Tread and side walls: cuts, bulges, threads showing", InspectionForm.Local, true),
        new("tyres.pressure", BikeSystem.Tyres, "Pressure of both tyres; holds overnight", InspectionForm.Local, true),
        new("tyres.sealant", BikeSystem.Tyres, "Sealant liquid, not dried; date of filling", InspectionForm.Remote, false),
        new("tyres.valves", BikeSystem.Tyres, "Valve nuts tight, cores clean, pump fits the valve", InspectionForm.Remote, false),
        new("tyres.spares", BikeSystem.Tyres, "Spare tube holds air; valve long enough for the rim", InspectionForm.Remote, false),
        new("wheels.axles", BikeSystem.Wheels, "Axles closed and at the maker's torque", InspectionForm.Local, true),
        new("wheels.spokes", BikeSystem.Wheels, "Spokes evenly tight, none loose or broken", InspectionForm.Local, true),
        new("wheels.rims", BikeSystem.Wheels, "Rims: cracks at spoke holes, dents, trueness", InspectionForm.Remote, true),
        new("brakes.bite", BikeSystem.Brakes, "Both brakes bite before the lever nears the bar", InspectionForm.Local, true),
        new("brakes.pads", BikeSystem.Brakes, "Pad thickness above the maker's limit", InspectionForm.Local, true),
        new("brakes.discs", BikeSystem.Brakes, "Disc thickness above the maker's limit; bolts tight", InspectionForm.Remote, true),
        new("brakes.hoses", BikeSystem.Brakes, "Hoses and levers dry, no kinks; date of the fluid", InspectionForm.Remote, true),
        new("drivetrain.chain", BikeSystem.Drivetrain, "Chain wear below the maker's limit; no stiff or cracked link", InspectionForm.Local, false),
        new("drivetrain.hanger", BikeSystem.Drivetrain, "Derailleur hanger straight; spare of the right type at hand", InspectionForm.Remote, false),
        new("drivetrain.shifting", BikeSystem.Drivetrain, "All gears shift; cables not frayed; shifter battery charged", InspectionForm.Local, false),
        new("drivetrain.freehub", BikeSystem.Drivetrain, "Freehub engages and does not slip", InspectionForm.Remote, true),
        new("suspension.leaks", BikeSystem.Suspension, "Fork and shock: oil, air loss, scratches", InspectionForm.Local, false),
        new("suspension.service", BikeSystem.Suspension, "Hours or date of the maker's service", InspectionForm.Remote, false),
        new("suspension.pivots", BikeSystem.Suspension, "Pivots without play, bolts at torque", InspectionForm.Remote, false),
        new("bearings.headset", BikeSystem.Bearings, "Headset without play, turns freely", InspectionForm.Local, true),
        new("bearings.hubs", BikeSystem.Bearings, "Hubs without play or grinding", InspectionForm.Remote, false),
        new("bearings.cranks", BikeSystem.Bearings, "Bottom bracket and cranks without play", InspectionForm.Remote, true),
        new("bolts.cockpit", BikeSystem.Bolts, "Bar, stem and seatpost bolts at the maker's torque", InspectionForm.Local, true),
        new("bolts.frame", BikeSystem.Bolts, "Frame, fork, bar and seatpost: cracks, dents", InspectionForm.Local, true),
        new("bolts.pedals", BikeSystem.Bolts, "Pedals, cleats and soles firm; cleat bolts tight", InspectionForm.Remote, false),
        new("bolts.bags", BikeSystem.Bolts, "Bags and mounts firm, nothing touches wheel or brake", InspectionForm.Remote, false),
        new("lamps.charge", BikeSystem.Lamps, "Lamps and instruments charged, cables present", InspectionForm.Local, false),
        new("lamps.second", BikeSystem.Lamps, "Second lamp works and is charged", InspectionForm.Remote, false),
        new("lamps.messenger", BikeSystem.Lamps, "Messenger charged and paid for, test message arrived; beacon in date", InspectionForm.Remote, true),
    ];

    /// <summary>Which form.</summary>
    public InspectionForm Form { get; }

    /// <summary>What to look at, system by system.</summary>
    public IReadOnlyList<InspectionCheck> Checks { get; }

    /// <summary>What is due, worn or faulty.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Whether a finding voids the plan until it is mended.</summary>
    public bool PlanIsVoid { get; }

    /// <summary>What the long form holds beyond the short one.</summary>
    public IReadOnlyList<InspectionCheck> AddedForRemote => [.. Checks.Where(c => c.Form == InspectionForm.Remote)];

    /// <summary>Makes the sheet.</summary>
    /// <param name="form">Short or long.</param>
    /// <param name="records">What the rider knows of the checks.</param>
    /// <param name="rideDate">Day of the ride; without it nothing is called due by date.</param>
    /// <returns>The sheet.</returns>
    /// <exception cref="ArgumentException">A record names no check, or two name the same.</exception>
    public static InspectionSheet For(InspectionForm form, IReadOnlyList<ServiceRecord>? records = null, DateOnly? rideDate = null)
    {
        Guard.Defined(form);
        records ??= [];
        InspectionCheck[] checks = [.. AllChecks.Where(c => c.Form <= form)];
        var findings = new List<Finding>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        bool voids = false;
        foreach (ServiceRecord r in records)
        {
            InspectionCheck check = AllChecks.FirstOrDefault(c => c.Id == r.CheckId)
                ?? throw new ArgumentException($"The service record '{r.CheckId}' names no check; known are {string.Join(", ", AllChecks.Select(c => c.Id))}.", nameof(records));
            if (!seen.Add(r.CheckId))
            {
                throw new ArgumentException($"The check '{r.CheckId}' has more than one service record.", nameof(records));
            }

            voids |= Judge(check, r, rideDate, findings);
        }

        return new InspectionSheet(form, checks, findings, voids);
    }

    /// <summary>The sheet as plain text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToPlainText();

    /// <summary>The sheet as plain text, what the long form adds marked with a plus, with findings and cautions.</summary>
    /// <returns>Lines of at most 80 characters.</returns>
    public string ToPlainText()
    {
        var text = new StringBuilder();
        text.Append("INSPECTION BEFORE THE RIDE, ").Append(Form == InspectionForm.Local ? "SHORT FORM" : "LONG FORM (+ only far out)").Append('\n');
        foreach (IGrouping<BikeSystem, InspectionCheck> system in Checks.GroupBy(c => c.System))
        {
            text.Append(system.Key).Append('\n');
            foreach (InspectionCheck c in system)
            {
                text.Append(c.Form == InspectionForm.Remote ? " + [ ] " : "   [ ] ").Append(c.Text).Append(c.VoidsPlan ? " (!)" : "").Append('\n');
            }
        }

        text.Append("(!) a fault here voids the plan until it is mended.\n");
        foreach (Finding f in Findings)
        {
            Render.Wrap(text, f.Message, Columns, "- ", "  ");
        }

        Render.Wrap(text, string.Join(' ', KitCautions.Sentences), Columns);

        return text.ToString();
    }

    private static bool Judge(InspectionCheck check, ServiceRecord r, DateOnly? rideDate, List<Finding> findings)
    {
        bool bad = false;
        if (r.Fault == Known.Yes)
        {
            Add(KitFindingCodes.InspectionFault, "a fault was found");
        }

        if (r.WearFactor is { } wear && wear >= 1)
        {
            Add(KitFindingCodes.InspectionWorn, string.Create(CultureInfo.InvariantCulture, $"worn to {wear * 100:0} % of the maker's limit"));
        }

        if (r.DoneOn is { } done && rideDate is { } ride && done > ride)
        {
            throw new ArgumentException($"The check '{check.Id}' was last done on {Text.Day(done)}, after the ride on {Text.Day(ride)}.", nameof(r));
        }

        if (r.DoneOn is { } last && r.MostDays is { } days)
        {
            if (rideDate is not { } day)
            {
                findings.Add(new Finding(KitFindingCodes.InspectionDateUnknown, FindingSeverity.Note, check.Id, $"{check.Text}: last done {Text.Day(last)}; the day of the ride is not given."));
            }
            else if (day.DayNumber - last.DayNumber > days)
            {
                Add(KitFindingCodes.InspectionDue, $"last done {Text.Day(last)}, {Text.F(day.DayNumber - last.DayNumber, 0)} days before the ride; the maker allows {Text.F(days, 0)}");
            }
        }

        if (r.RiddenM > r.MostM)
        {
            Add(KitFindingCodes.InspectionDue, $"{Text.F(r.RiddenM / 1000, 0)} km ridden since; the maker allows {Text.F(r.MostM / 1000, 0)} km");
        }

        return bad && check.VoidsPlan;

        void Add(string code, string what)
        {
            bad = true;
            findings.Add(new Finding(code, FindingSeverity.Warning, check.Id, $"{check.Text}: {what}.{(check.VoidsPlan ? " The plan is void until this is mended." : "")}"));
        }
    }
}
