using System.Globalization;
using System.Xml.Linq;
using PublicApiGenerator;
using SkiaSharp;
using SoloRide.Daylight;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Charts.Tests;

public sealed class RidePicturesTests
{
    private static readonly string[] Names = ["profile", "map", "body", "charge", "starts", "daylight", "pace"];
    private static readonly PictureSet Set = RidePictures.Of(Demo.Plan, Demo.Extras);

    public static TheoryData<string> All => [.. Names];

    [Fact]
    public void Of_WithEverythingGiven_MakesEveryPicture()
    {
        Assert.Equal(Names, Set.Pictures.Select(p => p.Name));
        Assert.Empty(Set.LeftOut);
    }

    [Fact]
    public void Of_PlanAlone_SaysWhatIsLeftOut()
    {
        PictureSet set = RidePictures.Of(Demo.Plan);
        Assert.Equal(["starts", "pace"], set.LeftOut.Select(l => l.Name));
        Assert.All(set.LeftOut, l => Assert.NotEmpty(l.Reason));
        Assert.Contains("no terrain was given", set.Find("profile")!.TextAlternative, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_RefusedPlan_KeepsMapAndDaylight()
    {
        RideRoute flat = RideRoute.FromPoints([new GeoPoint(40, -110), new GeoPoint(40.05, -110.02)], "No heights");
        RidePlan plan = RidePlanner.Plan(RideRequest.For(flat, new DateTimeOffset(2025, 6, 1, 8, 0, 0, TimeSpan.Zero)));
        PictureSet set = RidePictures.Of(plan);
        Assert.Equal(["map", "daylight"], set.Pictures.Select(p => p.Name));
        Assert.All(set.Pictures, p => Assert.NotEmpty(p.ToPng()));
        Assert.Throws<ArgumentException>(() => RidePictures.Profile(plan));
        Assert.Throws<ArgumentException>(() => RidePictures.Body(plan));
        Assert.Throws<ArgumentException>(() => RidePictures.Charge(plan));
    }

    [Fact]
    public void NoWayOutAndUnwritableNames_AreSaidInWords()
    {
        RideRoute route = RideRoute.FromPoints(Enumerable.Range(0, 200).Select(i => new GeoPoint(40 + (i * 0.001), -110, 1500 + (80 * Math.Sin(i / 15.0)))), "\u5C71\u306E\u9053");
        RidePlan plan = RidePlanner.Plan(RideRequest.For(route, new DateTimeOffset(2025, 6, 1, 8, 0, 0, TimeSpan.Zero)) with
        {
            EndsAreExits = false,
            Sources = [new WaterSource { Name = "\u6C34\u5834", AlongRoute = Length.FromKilometers(9), WetProbability = 1 }],
            Options = PlanOptions.Default with { Samples = 100 },
        });
        string[] profile = Texts(RidePictures.Profile(plan)), map = Texts(RidePictures.Map(plan));
        Assert.Contains("no way out is known", profile);
        Assert.Contains("water at km 9.0", profile);
        Assert.DoesNotContain("way out", map);
        Assert.Contains("no way out known", map);
        Assert.Contains("\u6C34\u5834", RidePictures.Profile(plan).TextAlternative, StringComparison.Ordinal);
        Assert.All(profile.Concat(map), t => Assert.DoesNotContain("\u25A1", t, StringComparison.Ordinal));

        static string[] Texts(Picture picture)
        {
            using SKSurface surface = SKSurface.Create(new SKImageInfo(1200, 700));
            var sheet = new Sheet(surface.Canvas, 1200, 700);
            picture.Draw(sheet);
            return [.. sheet.Texts.Select(t => t.Text)];
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Svg_ParsesAsXml_WithTitleDescriptionAndNoMachineFont(string name)
    {
        Picture p = Set.Find(name)!;
        string svg = p.ToSvg();
        XElement root = XDocument.Parse(svg).Root!;
        XNamespace ns = "http://www.w3.org/2000/svg";
        Assert.Equal(ns + "svg", root.Name);
        Assert.Equal(p.Title, root.Element(ns + "title")!.Value);
        Assert.Equal(p.TextAlternative, root.Element(ns + "desc")!.Value);
        Assert.Empty(root.Descendants(ns + "text"));
        Assert.DoesNotContain("font-family", svg, StringComparison.Ordinal);
        Assert.Empty(root.Descendants(ns + "image"));
        string[] ids = [.. root.Descendants().Attributes("id").Select(a => a.Value)];
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.All(ids, id => Assert.StartsWith(name + "-", id, StringComparison.Ordinal));
        Assert.All(root.Descendants(ns + "use"), u => Assert.Contains(u.Attribute(XNamespace.Get("http://www.w3.org/1999/xlink") + "href")!.Value[1..], ids));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Bytes_Twice_AreTheSame(string name)
    {
        Picture p = Set.Find(name)!;
        PictureSet again = RidePictures.Of(Demo.Plan, Demo.Extras);
        Assert.Equal(p.ToPng(), again.Find(name)!.ToPng());
        Assert.Equal(p.ToSvg(), again.Find(name)!.ToSvg());
    }

    [Theory]
    [MemberData(nameof(All))]
    public async Task Bytes_OnManyThreadsAndInAnotherCulture_AreTheSame(string name)
    {
        Picture p = Set.Find(name)!;
        byte[] one = p.ToPng();
        string svg = p.ToSvg();
        (byte[] Png, string Svg)[] many = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() =>
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            return (p.ToPng(), p.ToSvg());
        })));
        Assert.All(many, m => Assert.Equal(one, m.Png));
        Assert.All(many, m => Assert.Equal(svg, m.Svg));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Png_HasItsSize_AndIsDrawnToTheEdgesOnPaper(string name)
    {
        using SKBitmap map = SKBitmap.Decode(Set.Find(name)!.ToPng());
        Assert.Equal((1200, 700), (map.Width, map.Height));
        Assert.Equal(SKColors.White, map.GetPixel(2, 2));
        int dark = 0, light = 0;
        for (int y = 0; y < map.Height; y += 2)
        {
            for (int x = 0; x < map.Width; x += 2)
            {
                SKColor c = map.GetPixel(x, y);
                int grey = (c.Red + c.Green + c.Blue) / 3;
                dark += grey < 100 ? 1 : 0;
                light += grey > 240 ? 1 : 0;
            }
        }

        // Ink enough to read, paper enough to print; a cleared or blackened sheet has neither.
        Assert.InRange(dark, 1500, 60_000);
        Assert.True(light > 60_000, $"Only {light} light points.");
    }

    [Theory]
    [MemberData(nameof(All))]
    public void TextAlternative_CarriesTheCaution_AndNoUnknownNumber(string name)
    {
        string text = Set.Find(name)!.TextAlternative;
        Assert.EndsWith(Cautions.Text, text, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        Assert.DoesNotContain("\u221E", text, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Drawing_WritesTheCaution(string name)
    {
        var picture = Set.Find(name)!;
        using SKSurface surface = SKSurface.Create(new SKImageInfo(1200, 700));
        var sheet = new Sheet(surface.Canvas, 1200, 700);
        picture.Draw(sheet);
        string all = string.Join(' ', sheet.Texts.Select(t => t.Text));
        Assert.All(Cautions.Sentences.SelectMany(s => s.Split(' ')), word => Assert.Contains(word, all, StringComparison.Ordinal));
        Assert.All(sheet.Texts, t => Assert.InRange(t.X, -1, 1200 - Face.Width(t.Text, t.Size, t.Bold) + 1));
        Assert.All(sheet.Texts, t => Assert.InRange(t.Y, 8, 700));
    }

    [Fact]
    public void Units_UsCustomary_SpeaksOfMilesFeetAndQuarts()
    {
        PictureSet us = RidePictures.Of(Demo.Plan, Demo.Extras, new PictureOptions { Units = MeasureSystem.UsCustomary });
        string profile = us.Find("profile")!.TextAlternative;
        Assert.Contains("mile 19.3", profile, StringComparison.Ordinal);
        Assert.Contains(" ft", profile, StringComparison.Ordinal);
        Assert.Contains(" qt", profile, StringComparison.Ordinal);
        Assert.DoesNotContain(" km", profile, StringComparison.Ordinal);
        Assert.Contains("°F", us.Find("body")!.TextAlternative, StringComparison.Ordinal);
    }

    /// <summary>Greys of the light phases fall from day to night; each ink keeps its distance in lightness from paper (common practice, no source).</summary>
    [Fact]
    public void Inks_DifferInLightness()
    {
        double[] sky = [.. Ink.Sky.Select(Lightness)];
        for (int i = 1; i < sky.Length; i++)
        {
            Assert.True(sky[i] < sky[i - 1] - 15, $"Phase {i} is too near the one before.");
        }

        Assert.True(Lightness(Ink.Ochre) - Lightness(Ink.Plum) > 40 && Lightness(Ink.Plum) - Lightness(Ink.Black) > 20);

        static double Lightness(SKColor c) => (0.2126 * c.Red) + (0.7152 * c.Green) + (0.0722 * c.Blue);
    }

    [Theory]
    [InlineData(899, 700, 1)]
    [InlineData(1200, 559, 1)]
    [InlineData(4001, 700, 1)]
    [InlineData(1200, 700, 0.4)]
    [InlineData(1200, 700, double.NaN)]
    public void Options_OutOfRange_SayTheRange(int width, int height, double density)
        => Assert.Throws<ArgumentOutOfRangeException>(() => new PictureOptions { WidthPx = width, HeightPx = height, DensityFactor = density });

    [Theory]
    [InlineData(900, 560)]
    [InlineData(2400, 1000)]
    public void Sizes_Others_AreDrawnToo(int width, int height)
    {
        PictureSet set = RidePictures.Of(Demo.Plan, Demo.Extras, new PictureOptions { WidthPx = width, HeightPx = height });
        foreach (Picture p in set.Pictures)
        {
            using SKBitmap map = SKBitmap.Decode(p.ToPng());
            Assert.Equal((width, height), (map.Width, map.Height));
        }
    }

    [Fact]
    public void BadInput_Throws()
    {
        Assert.Throws<ArgumentNullException>(() => RidePictures.Of(null!));
        Assert.Throws<ArgumentNullException>(() => RidePictures.Pace(null!));
        Assert.Throws<ArgumentException>(() => RidePictures.Starts(new StartSweep([], []), ZoneOffsets.Utc));
        Assert.Throws<ArgumentOutOfRangeException>(() => RidePictures.Daylight("x", new GeoPoint(40, 0), ZoneOffsets.Utc, 1949));
        Assert.Throws<ArgumentException>(() => new RideHistory(Demo.Extras.Rides!.Before, Demo.Extras.Rides.After, []));
        Assert.Throws<ArgumentException>(() => Set.Pictures[0].Save("picture.bmp"));
    }

    /// <summary>Polar day and night, the equator, the date line: the phases cover each day.</summary>
    [Theory]
    [InlineData(78.2, 15.6, 1)]
    [InlineData(-77.8, 166.7, 12)]
    [InlineData(0, 179.9, 12)]
    [InlineData(90, 0, 0)]
    public void Daylight_AnyPlace_IsDrawn(double lat, double lon, double offset)
    {
        Picture p = RidePictures.Daylight("a far place", new GeoPoint(lat, lon), ZoneOffsets.Fixed(offset), 2024, HorizonProfile.Level(5));
        Assert.NotEmpty(p.ToPng());
        Assert.NotNull(XDocument.Parse(p.ToSvg()).Root);
    }

    /// <summary>Letters that the typeface lacks and characters that XML cannot hold do no harm.</summary>
    [Fact]
    public void Names_OfAnyScript_AreDrawnAndTold()
    {
        RidePlan odd = Demo.Plan with { Title = "\u0001\u5C71 <b>&\u202E\uD83D\uDEB2 \uD800 Ωмега" };
        foreach (Picture p in RidePictures.Of(odd).Pictures)
        {
            Assert.NotNull(XDocument.Parse(p.ToSvg()).Root);
            Assert.NotEmpty(p.ToPng());
            Assert.NotEmpty(p.ToHtml());
        }
    }

    [Fact]
    public void Save_WritesThreeFilesForEachPicture()
    {
        string folder = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        try
        {
            IReadOnlyList<string> files = Set.Save(folder);
            Assert.Equal(3 * Names.Length, files.Count);
            Assert.All(files, f => Assert.True(new FileInfo(f).Length > 100));
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Fact]
    public void PublicSurface_IsTheApprovedOne()
        => Approved.Check(
            ApiGenerator.GeneratePublicApi([.. typeof(Picture).Assembly.GetExportedTypes()], new ApiGeneratorOptions { IncludeAssemblyAttributes = false }),
            "tests", "SoloRide.Charts.Tests", "PublicApi", "SoloRide.Charts.txt");

    /// <summary>The computation knows nothing of pictures.</summary>
    [Fact]
    public void Core_DoesNotReferenceThePlottingLibrary()
        => Assert.DoesNotContain(typeof(RidePlan).Assembly.GetReferencedAssemblies(), a => a.Name is "ScottPlot" or "SkiaSharp" or "SoloRide.Charts");
}
