using SoloRide.Contact;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Contact Abroad: the person at home lives nine hours west, and fire is banned.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S13(string folder) : Scenario("S13", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "every time in both zones with the change of date; a calendar that no change of clocks can shift; alarm time; what to say; no flame";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("contact's clock", "UTC+2, nine hours behind the ride's UTC+11"), ("alarm", "30 min after the rider is overdue"), ("fire", "total ban, as checked on 28 November 2025"), ("creek", "wet in 80 of 100"),
    ];

    /// <summary>Kit with a stove and matches that must stay at home.</summary>
    public static IReadOnlyList<KitItem> Kit { get; } =
    [
        .. Gear.Usual,
        new("gas stove", Mass.FromGrams(310), Volume.FromLiters(0.8), KitPlace.Pack, KitFunction.Fire) { HasFlame = true },
        new("matches", Mass.FromGrams(20), Volume.FromLiters(0.03), KitPlace.Pack, KitFunction.Fire) { HasFlame = true },
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(72), SustainedPower = Power.FromWatts(150) },
        Load = new Load { OnBody = Mass.FromKilograms(3), WaterCapacity = Volume.FromLiters(7) },
        Sources = [new WaterSource { Name = "Kestrow Creek", AlongRoute = Length.FromKilometers(12), WetProbability = 0.8 }],
        Devices = [Gear.Messenger, Gear.Phone, Gear.HeadLamp()],
        KitItems = Kit,
        FireAllowed = Known.No,
        Checked = new Dictionary<string, DateOnly> { ["fire ban"] = new(2025, 11, 28) },
        WaitingOutfit = Gear.SummerWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
    };

    /// <summary>The contact.</summary>
    public static TrustedContact Contact { get; } = new("Contact Two", "555 0102") { Zone = ZoneOffsets.Fixed(2) };

    /// <summary>The rider.</summary>
    public static RiderIdentity Rider { get; } = new("Rider One") { Phone = "555 0101", Clothing = "yellow jersey, dark shorts", BikeDescription = "green hardtail" };

    /// <summary>Whom the contact calls.</summary>
    public static EmergencyCall Emergency { get; } = new("Range rescue service", "555 0199");

    /// <summary>The sheet.</summary>
    public LeaveBehindSheet Sheet => Plan.ToSheet(Rider, [Contact], Emergency);

    /// <summary>The calendar.</summary>
    public ContactCalendar Calendar => Plan.ToCalendar("kestrow-2025-11-29", Rider.Name, Start.AddHours(-12), Emergency);

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        DateTimeOffset alarm = Plan.Schedule!.AlarmTime;
        yield return $"alarm {Both(alarm)}; overdue {Both(Plan.Schedule.OverdueTime)}";
        foreach (CheckIn c in Plan.Schedule.CheckIns)
        {
            yield return $"message {c.Name}: {Both(c.Expected)}";
        }

        yield return "left at home: " + string.Join("; ", Plan.Findings.Where(f => f.Code == "kit.fire-ban").Select(f => f.Message));
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Papers() => [Sheet.ToPlainText()];

    private string Both(DateTimeOffset t)
        => $"{Zone.ToLocal(t).ToString("ddd d MMM HH:mm", System.Globalization.CultureInfo.InvariantCulture)} there, {Contact.Zone!.ToLocal(t).ToString("ddd d MMM HH:mm", System.Globalization.CultureInfo.InvariantCulture)} at the contact's";
}
