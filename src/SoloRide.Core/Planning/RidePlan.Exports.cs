using System.Globalization;
using System.Text;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>What a plan is written out as besides text and JSON.</content>
public sealed partial record RidePlan
{
    private const int StripWidth = 32;

    /// <summary>The sheet that stays at home: one page, in both clocks, readable by somebody who never rode a bicycle.</summary>
    /// <param name="rider">Who rides; illnesses and medicines go on the sheet only when the rider says so with <paramref name="shareMedical"/>.</param>
    /// <param name="contacts">One or two people who are not on the ride.</param>
    /// <param name="emergency">Whom they call; null leaves a gap on the sheet that is said in capital letters. Never guessed.</param>
    /// <param name="version">[1 to 9 999] A new version replaces the old.</param>
    /// <param name="shareMedical">The rider's own decision.</param>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>The sheet.</returns>
    /// <exception cref="InvalidOperationException">The plan was refused and has no times.</exception>
    public LeaveBehindSheet ToSheet(RiderIdentity rider, IReadOnlyList<TrustedContact> contacts, EmergencyCall? emergency = null, int version = 1, bool shareMedical = false, PlanTextOptions? options = null)
        => LeaveBehindSheet.Make(new SheetRequest
        {
            Rider = rider,
            Contacts = contacts,
            Emergency = emergency,
            Schedule = Timed(),
            Title = Title,
            RideZone = Zone,
            RouteText = string.Create(CultureInfo.InvariantCulture, $"{Units(options).Km(Length.Meters)} by {string.Join(", ", Stations.Where(s => s.Kind is not StationKind.Mark and not StationKind.Top).Select(s => s.Name).Distinct())}"),
            StartPlace = Stations.Count > 0 ? Stations[0].Place : null,
            Exits = [.. Stations.Where(s => s.Kind == StationKind.Exit).Select(s => new ExitPoint { Name = s.Name, Place = s.Place }).DistinctBy(e => e.Name)],
            Means = Means,
            Carried = new CarriedForWaiting
            {
                Water = Needs is { } n ? $"{Units(options).LitresUp(n.Fills[0].FillTo.Liters)} at the start" : null,
                Food = Needs is { } f ? $"{Text.Thousands(f.Food.Kilocalories + f.FoodReserve.Kilocalories)} kcal" : null,
                Shelter = Taken(KitFunction.BarrierBag),
                Warmth = Taken(KitFunction.Insulation),
                Light = string.Join(", ", new[] { Taken(KitFunction.Light) }.Concat(PowerPlan?.Devices.Where(d => d.Device.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp).Select(d => d.Device.Name) ?? []).Where(x => x is not null)) is { Length: > 0 } light ? light : null,
                FirstAid = Taken(KitFunction.FirstAid),
                Fire = Taken(KitFunction.Fire),
            },
            ShareMedical = shareMedical,
            Version = version,
        });

    /// <summary>The calendar for the contact: one event a message, one for overdue, one for the alarm (RFC 5545).</summary>
    /// <param name="planId">Id of the plan that stays the same over all versions.</param>
    /// <param name="riderName">Name as it shows in the calendar.</param>
    /// <param name="stamp">When the calendar was made.</param>
    /// <param name="emergency">Whom to call at the alarm time.</param>
    /// <param name="version">[0 to 9 999] Version of the plan.</param>
    /// <param name="replaces">The calendar of the version before; null for the first.</param>
    /// <returns>The calendar.</returns>
    /// <exception cref="InvalidOperationException">The plan was refused and has no times.</exception>
    public ContactCalendar ToCalendar(string planId, string riderName, DateTimeOffset stamp, EmergencyCall? emergency = null, int version = 1, ContactCalendar? replaces = null)
        => ContactCalendar.For(Timed(), planId, riderName, Zone, stamp, emergency, version, replaces);

    /// <summary>The route with its stations as named places, as GPX 1.1.</summary>
    /// <returns>The document. A recorded line proves neither access nor that the trail is open or rideable.</returns>
    public string ToGpx() => WithStations().ToGpx();

    /// <summary>The route with its stations, points of no return and places of messages as named places, as GeoJSON (RFC 7946).</summary>
    /// <returns>The document. A recorded line proves neither access nor that the trail is open or rideable.</returns>
    public string ToGeoJson() => WithStations().ToGeoJson();

    /// <summary>A strip for the top tube, 32 columns, a line a station: distance, typical arrival, latest pass, water in hand, name; then the cautions. A name that is longer than its column stands below its line.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text with line feeds.</returns>
    public string ToStrip(PlanTextOptions? options = null)
    {
        const int nameAt = 23;
        PlanUnits u = Units(options);
        var b = new StringBuilder();
        PlanText.Wrap(b, Title, StripWidth);
        b.Append(CultureInfo.InvariantCulture, $"{u.DistanceUnit,5}  plan  last {u.VolumeUnit,4} place\n");
        foreach (PlanStation s in Stations)
        {
            string water = s.Kind == StationKind.Start ? u.LitresUpNumber(s.WaterInHand.Typical.Liters) : u.LitresNumber(s.WaterInHand.Typical.Liters);
            string line = $"{u.KmShort(s.AlongRoute.Meters),5} {StripClock(s.Arrival.Typical)}{(s.LatestPass is { } l ? StripClock(PlanText.Down(l)) : "  -   ")}{water,4} ";
            if (s.Name.Length <= StripWidth - nameAt)
            {
                b.Append(line).Append(s.Name).Append('\n');
                continue;
            }

            b.Append(line.TrimEnd()).Append('\n');
            foreach (string part in PlanText.Folded(s.Name, StripWidth - 6))
            {
                b.Append(' ', 6).Append(part).Append('\n');
            }
        }

        PlanText.Wrap(b, Cautions.Text, StripWidth);
        return PlanTextOptions.Shown(options, b.ToString());
    }

    /// <summary>Five letters of clock and the mark of a changed clock in place of the space after it.</summary>
    private string StripClock(DateTimeOffset t)
    {
        DateTimeOffset local = Zone.ToLocal(t);
        return Text.Clock(local) + (local.Offset == Start.Offset ? " " : PlanText.Changed);
    }

    /// <summary>The packing list: each thing with its mass and the decision it serves, and the total.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text with line feeds of at most 80 columns, with the cautions.</returns>
    public string ToPackingList(PlanTextOptions? options = null)
    {
        PlanUnits u = Units(options);
        IReadOnlyList<string> names = PlanUnits.Names(this);
        var b = new StringBuilder();
        double total = 0;
        foreach (CarryItem i in Carry)
        {
            total += i.Mass?.Kilograms ?? 0;
            string mass = i.Mass is { } m ? u.SmallMass(m.Kilograms) : "?";
            PlanText.Paragraph(b, $"[ ] {mass,8} ", u.Words($"{i.Name}: {i.Reason}", names));
        }

        PlanText.Paragraph(b, $"    {u.Mass(total),8} ", "in all, of what has a mass");
        PlanText.Paragraph(b, "Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());
    }

    /// <summary>The cue sheet: what to do where, in order: named places, water to fill, ways out, and sharp turns of the line.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text with line feeds of at most 80 columns, with the cautions. Turns are read from the drawn line: signs and ground come first.</returns>
    public string ToCueSheet(PlanTextOptions? options = null) => PlanTextOptions.Shown(options, CueSheet.Write(this, Units(options)));

    private static PlanUnits Units(PlanTextOptions? options) => new((options ?? PlanTextOptions.Default).Units);

    /// <summary>Names of the chosen things with a function; null when there is none.</summary>
    private string? Taken(KitFunction function)
        => KitPlan is { } k && k.Chosen.Where(c => c.Item.Functions.Contains(function)).Select(c => c.Item.Name).ToArray() is { Length: > 0 } names ? string.Join(", ", names) : null;

    private CheckInSchedule Timed() => Schedule ?? throw new InvalidOperationException("The plan was refused: it has no times to tell.");

    /// <summary>Types of places that a plan writes beside its stations; read back, they are no stations of a new plan.</summary>
    internal const string NoReturnType = "no return", MessageType = "check-in";

    /// <summary>The route with stations, points of no return and the places where a message is due, as named places.</summary>
    private RideRoute WithStations()
        => Route.WithDescription(Route.Description.Length > 0 ? Route.Description + " " + Cautions.Text : Cautions.Text).WithWaypoints(
        [
            .. Stations.Select(s => new RouteWaypoint(s.Place, s.Name == "-" ? $"km {Text.F(s.AlongRoute.Kilometers, 1)}" : s.Name, $"station: {s.Kind.ToString().ToLowerInvariant()}", $"plan {Text.Clock(Zone.ToLocal(s.Arrival.Typical))}{(s.LatestPass is { } l ? ", latest " + Text.Clock(PlanText.Down(Zone.ToLocal(l))) : "")}")),
            .. PointsOfNoReturn.Select(p => new RouteWaypoint(Route.PointAt(p.AlongRoute), $"no return: {(p.Resource == ResourceKind.Water ? "water" : "light")}", NoReturnType, $"from here on it no longer lasts back to the start; plan {Text.Clock(Zone.ToLocal(p.At))}")),
            .. (Schedule?.CheckIns ?? []).Where(c => c.Place is not null).Select(c => new RouteWaypoint(c.Place!.Value, $"message: {c.Name}", MessageType, $"plan {Text.Clock(Zone.ToLocal(c.Expected))}, missed at {Text.Clock(Zone.ToLocal(c.Due))}, call by {Text.Clock(Zone.ToLocal(c.CallBy))}")),
        ]);
}
