using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Contact;
using UnitsNet;

namespace SoloRide.Tests.Contact;

public sealed class MessageTests
{
    private static readonly DateTimeOffset Sent = new(2025, 4, 19, 13, 40, 0, TimeSpan.FromHours(-6));

    private static MessageRequest Full(MessageKind kind, string? name = "Robin Alder", string? place = "Ossary Saddle") => new()
    {
        Kind = kind,
        SentAt = Sent,
        RiderName = name,
        PlaceName = place,
        Position = new GeoPoint(38.43102, -109.58990),
        FixAt = Sent.AddMinutes(-2),
        Next = Sent.AddHours(2),
        EndEarly = Sent.AddHours(4),
        EndLate = Sent.AddHours(5),
        CallBy = Sent.AddHours(7),
        WayLeft = Length.FromKilometers(9.4),
        What = kind is MessageKind.Distress or MessageKind.WalkingOut ? "leg broken, cannot move" : null,
        Needs = kind == MessageKind.Distress ? "2 L water, barrier bag" : null,
        Battery = Ratio.FromPercent(62),
    };

    [Theory]
    [InlineData(MessageKind.Start, "START 13:40 UTC-6")]
    [InlineData(MessageKind.OnTheWay, "OK 13:40 UTC-6")]
    [InlineData(MessageKind.LateButFine, "LATE BUT FINE 13:40 UTC-6")]
    [InlineData(MessageKind.Camp, "CAMP OK 13:40 UTC-6")]
    [InlineData(MessageKind.Back, "BACK OK 13:40 UTC-6")]
    [InlineData(MessageKind.WalkingOut, "WALKING OUT OK 13:40 UTC-6")]
    [InlineData(MessageKind.Distress, "HELP 13:40 UTC-6")]
    public void EachKind_FitsOneBurst_AndKeepsTimesAndPlace(MessageKind kind, string begins)
    {
        StatusMessage m = StatusMessage.Compose(Full(kind));
        Assert.StartsWith(begins, m.Body, StringComparison.Ordinal);
        Assert.InRange(m.Septets, 1, 160);
        Assert.Contains("38 25.861N 109 35.394W", m.Body, StringComparison.Ordinal);
        Assert.Contains("next 15:40", m.Body, StringComparison.Ordinal);
        Assert.Contains("17:40-18:40", m.Body, StringComparison.Ordinal);
        Assert.Contains("bat 62%", m.Body, StringComparison.Ordinal);
    }

    /// <summary>US NSARC georeferencing matrix 2007: land teams use the grid, air crews degrees and minutes: a call for help carries both, with the datum.</summary>
    [Fact]
    [Checks(typeof(StatusMessage), CheckKind.Outside)]
    public void Distress_CarriesGridAndMinutes()
    {
        StatusMessage m = StatusMessage.Compose(Full(MessageKind.Distress));
        Assert.Contains(GridReference.Of(new GeoPoint(38.43102, -109.58990)).ToString(), m.Body, StringComparison.Ordinal);
        Assert.Contains("WGS84 fix 13:38", m.Body, StringComparison.Ordinal);
        Assert.Contains("1 person", m.Body, StringComparison.Ordinal);
    }

    /// <summary>3GPP TS 23.038 (from memory): 128 characters less escape in the basic table, ten in the extension, which cost two.</summary>
    [Fact]
    [Checks(typeof(StatusMessage), CheckKind.Outside)]
    public void Alphabet_HasTheStandardsCharacters()
    {
        int basic = 0, extended = 0;
        for (int c = 0; c <= 0xFFFF; c++)
        {
            basic += GsmKernel.Septets((char)c) == 1 ? 1 : 0;
            extended += GsmKernel.Septets((char)c) == 2 ? 1 : 0;
        }

        Assert.Equal(127, basic);
        Assert.Equal(10, extended);
        Assert.Equal(6, GsmKernel.Septets("a€b[".AsSpan()));
        Assert.Equal(-1, GsmKernel.Septets("a`".AsSpan()));
        Assert.Equal(-1, GsmKernel.Septets("ł".AsSpan()));
        foreach (char c in "@£$¥èéùìòÇØøÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ¤¡ÄÖÑÜ§¿äöñüà")
        {
            Assert.Equal(1, GsmKernel.Septets(c));
        }
    }

    [Theory]
    [InlineData("Ærø", "Ærø", false)]
    [InlineData("Čeněk", "Cenek", false)]
    [InlineData("ç", "c", false)]
    [InlineData("ﬁn", "fin", false)]
    [InlineData("“Gate” – 3’", "\"Gate\" - 3'", false)]
    [InlineData("山", "?", true)]
    [InlineData("a\tb\nc", "a b c", false)]
    [InlineData("🚵", "?", true)]
    [InlineData("Łódź, Đurđevac, Iğdır", "Lodz, Durdevac, Igdir", false)]
    [InlineData("2½ h, ½ L, 10² m, −5°C", "2 1/2 h, 1/2 L, 10^2 m, -5degC", false)]
    public void Fold_DecomposesOrReplaces(string text, string wanted, bool replaced)
    {
        Assert.Equal(wanted, GsmKernel.Fold(text, out bool r));
        Assert.Equal(replaced, r);
    }

    [Fact]
    public void Cut_TakesTheNameFirst_ThenThePlace()
    {
        string place = "Upper Cinder Hollow shelter by the old mill", name = "Maximiliane von der Tannenhalde";
        StatusMessage m = StatusMessage.Compose(Full(MessageKind.OnTheWay, name, place));
        Assert.True(m.WasCut);
        Assert.DoesNotContain(name, m.Body, StringComparison.Ordinal);
        Assert.Contains("Upper", m.Body, StringComparison.Ordinal);
        Assert.Contains(m.Findings, f => f.Code == ContactFindingCodes.MessageCut);
        Assert.Contains("call by 20:40", m.Body, StringComparison.Ordinal);
    }

    [Property(MaxTest = 300)]
    [Checks(typeof(StatusMessage), CheckKind.Property)]
    public bool AnyNamesAndPlaces_FitOneBurst_WithoutLosingNumbers(string? name, string? place, string? what, PositiveInt kind, double lat, double lon, PositiveInt days, PositiveInt offset)
    {
        MessageKind k = (MessageKind)(kind.Get % 7);
        DateTimeOffset sent = new(2025, 12, 30, 23, 59, 0, TimeSpan.FromMinutes((offset.Get % 52 * 15) - 360));
        MessageRequest r = Full(k, name, place) with
        {
            SentAt = sent,
            What = what,
            Needs = place,
            Position = new GeoPoint(Root.GridTests.PlaceLat(lat), Root.GridTests.PlaceLon(lon)),
            FixAt = sent.AddDays(-1),
            Next = sent.AddDays(days.Get % 20),
            EndEarly = sent.AddDays(1 + (days.Get % 20)),
            EndLate = sent.AddDays(2 + (days.Get % 20)),
            CallBy = sent.AddDays(3 + (days.Get % 20)),
            WayLeft = Length.FromKilometers(987.6),
            People = 99,
            Battery = Ratio.FromPercent(100),
        };
        StatusMessage m = StatusMessage.Compose(r);
        return m.Septets is > 0 and <= 160
            && m.Body.Contains("bat 100%", StringComparison.Ordinal)
            && m.Body.Contains("next ", StringComparison.Ordinal)
            && m.Body.Contains(" fix ", StringComparison.Ordinal)
            && (k != MessageKind.Distress || m.Body.Contains(GridReference.Of(r.Position!.Value).ToString(), StringComparison.Ordinal));
    }

    [Fact]
    [Checks(typeof(StatusMessage), CheckKind.BadInput)]
    public void DistressWithoutPosition_IsRefused()
    {
        Assert.Contains("position", Assert.Throws<ArgumentException>(() => StatusMessage.Compose(Full(MessageKind.Distress) with { Position = null })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Full(MessageKind.Start) with { People = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => Full(MessageKind.Start) with { Battery = Ratio.FromPercent(120) });
    }

    /// <summary>signals.csv: published, second-hand (alpine signal; ICAO Annex 12 appendix).</summary>
    [Fact]
    [Checks(typeof(DistressCard), CheckKind.Outside)]
    public void Signals_AreThoseOfTheTable()
    {
        CsvTable table = CsvTable.Read(Repo.Data("batteries", "signals.csv"));
        foreach (CsvRow row in table.Rows)
        {
            DistressSignal s = Assert.Single(DistressCard.Signals, x => x.Name == row["signal"]);
            Assert.Equal(row["kind"].Replace("_", "", StringComparison.Ordinal), s.Kind.ToString(), ignoreCase: true);
            Assert.Equal(row["meaning"], s.Meaning);
            Assert.Equal(row["pattern"] == "same" ? "letters at least 2.5 m, high contrast" : row["pattern"] is "same " ? "" : row["pattern"], s.Pattern);
        }

        Assert.Equal(table.Rows.Count, DistressCard.Signals.Count);
    }

    /// <summary>Common practice, no source: the centre asks back, a mistake is cancelled by answer, silence sends help.</summary>
    [Fact]
    public void Card_SaysWhatFollows_AndLeavesNoNumberGuessed()
    {
        DistressCard card = DistressCard.Make([new(MeansKind.DistressBeacon), new(MeansKind.Telephone), new(MeansKind.SatelliteMessenger)], null);
        string text = card.ToPlainText();
        Assert.Contains("asks back", text, StringComparison.Ordinal);
        Assert.Contains("mistake", text, StringComparison.Ordinal);
        Assert.Contains("Silence after a call for help counts as need", text, StringComparison.Ordinal);
        Assert.Contains("NOT GIVEN", text, StringComparison.Ordinal);
        Assert.Contains(card.Findings, f => f.Code == ContactFindingCodes.NoEmergencyNumber);
        Assert.StartsWith("Telephone", card.OrderOfMeans[0], StringComparison.Ordinal);
        Assert.Contains("works alone", card.OrderOfMeans[2], StringComparison.Ordinal);
        Assert.DoesNotContain("NOT GIVEN", DistressCard.Make([new(MeansKind.Telephone)], new EmergencyCall("county police", "555 0100")).ToPlainText(), StringComparison.Ordinal);
    }

    [Fact]
    [Checks(typeof(DistressCard), CheckKind.BadInput)]
    public void CardWithoutMeans_IsRefused() => Assert.Throws<ArgumentException>(() => DistressCard.Make([], null));

    [Property]
    [Checks(typeof(DistressCard), CheckKind.Property)]
    public bool Card_ListsEveryMeans_PhoneFirst(bool phone, bool messenger, bool radio)
    {
        List<CommunicationMeans> means = [new(MeansKind.DistressBeacon)];
        if (radio)
        {
            means.Insert(0, new(MeansKind.Radio));
        }

        if (messenger)
        {
            means.Add(new(MeansKind.SatelliteMessenger));
        }

        if (phone)
        {
            means.Add(new(MeansKind.Telephone));
        }

        DistressCard card = DistressCard.Make(means, null);
        return card.OrderOfMeans.Count == means.Count + 1 && (!phone || card.OrderOfMeans[0].StartsWith("Telephone", StringComparison.Ordinal));
    }
}
