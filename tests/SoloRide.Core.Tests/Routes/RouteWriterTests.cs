using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Schema;
using FsCheck;
using FsCheck.Xunit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class RouteWriterTests
{
    public static TheoryData<string> Files
        => [.. Directory.GetFiles(Repo.Data("routes", "files")).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Files))]
    public void ToGpxAndToGeoJson_ReadBack_LoseNothing(string name)
    {
        if (!RouteFile.TryRead(Repo.Data("routes", "files/" + name), out RouteFile? file, out _))
        {
            return;
        }

        foreach ((string text, bool gpx) in new[] { (file.ToGpx(), true), (file.ToGeoJson(), false) })
        {
            RouteFile back = RouteFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "back", new RouteReadOptions { Strict = true });

            // GPX wants planned routes before tracks, so lines may change places, and it has no empty planned route in GeoJSON's sense.
            RouteLine[] a = [.. file.Lines.OrderBy(l => gpx ? l.Kind == RouteLineKind.Track : false)], b = [.. back.Lines];
            Assert.Equal(a.Length, b.Length);
            for (int i = 0; i < a.Length; i++)
            {
                Assert.Equal(a[i].Kind, b[i].Kind);
                Assert.Equal(a[i].Name, b[i].Name);
                Assert.Equal(a[i].Points.Select(Same), b[i].Points.Select(Same));
            }

            Assert.Equal(file.Waypoints.Select(w => w with { }), back.Waypoints);
            Assert.Equal(file.Name, back.Name);
            Assert.Equal(text, gpx ? back.ToGpx() : back.ToGeoJson());
        }

        // 180 and -180 deg are the same meridian; the schema knows only the second.
        static RoutePoint Same(RoutePoint p) => p.Place.LonDeg == 180 ? p with { Place = new GeoPoint(p.Place.LatDeg, -180, p.Place.ElevationM) } : p;
    }

    // Source: the published GPX 1.1 schema (annotations removed); not shipped.
    [SkippableFact]
    [Checks(typeof(RideRoute), CheckKind.Outside)]
    public void ToGpx_AnyFile_IsValidByTheSchema()
    {
        string schema = Repo.ReferenceFile("routes", "schema", "gpx-1.1.xsd");
        var set = new XmlSchemaSet();
        set.Add(RouteWriter.GpxNamespace, schema);
        foreach (string name in Directory.GetFiles(Repo.Data("routes", "files")))
        {
            if (RouteFile.TryRead(name, out RouteFile? file, out _))
            {
                Validate(file.ToGpx(), set);
            }
        }

        Validate(Tagged().ToGpx(), set);
    }

    [Fact]
    public void ToGpx_Route_CarriesCautionSectionsWaypointsAndGaps()
    {
        RideRoute route = Tagged();
        string gpx = route.ToGpx();
        Assert.Contains("proves neither access", gpx, StringComparison.Ordinal);
        foreach (string text in new[] { gpx, route.ToGeoJson() })
        {
            RideRoute back = RideRoute.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)));
            Assert.Equal(route.Points.Select(p => p.Place), back.Points.Select(p => p.Place));
            Assert.Equal(route.Sections, back.Sections);
            Assert.Equal(route.Waypoints, back.Waypoints);
            Assert.Equal(route.Gaps.Select(g => g.PointIndex), back.Gaps.Select(g => g.PointIndex));
            Assert.Equal(route.Name, back.Name);
        }
    }

    [Property]
    [Checks(typeof(RideRoute), CheckKind.Property)]
    public bool RoundTrip_AnyNameAndPlace_IsTheSame(string? name, string? description, int lat, int lon)
    {
        string n = new([.. (name ?? "").Where(XmlConvert.IsXmlChar).Where(c => c >= ' ')]), d = new([.. (description ?? "").Where(XmlConvert.IsXmlChar).Where(c => c >= ' ')]);
        n = n.Trim();
        d = d.Trim();
        RideRoute route = RideRoute.FromPoints([new GeoPoint(lat % 90 / 1.1, lon % 180 / 1.1, lat / 3.0), new GeoPoint(lon % 90 / 1.3, lat % 180 / 1.3)], n)
            .WithWaypoints([new RouteWaypoint(new GeoPoint(1, 2), n, "water", d)]);
        foreach (string text in new[] { route.ToGpx(), route.ToGeoJson() })
        {
            RideRoute back = RideRoute.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)));
            if (back.Name != n || !back.Points.SequenceEqual(route.Points) || !back.Waypoints.SequenceEqual(route.Waypoints))
            {
                return false;
            }
        }

        return true;
    }

    [Fact]
    public void Write_CultureWithDecimalComma_ChangesNothing()
    {
        string invariant = Tagged().ToGpx();
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(invariant, Tagged().ToGpx());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Save_UnknownEnding_SaysWhichAreKnown()
    {
        Assert.Contains(".geojson", Assert.Throws<ArgumentException>(() => Tagged().Save("route.txt")).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Tagged().Write(Stream.Null, RouteFileFormat.Kml));
    }

    [Fact]
    public void Save_ThenRead_IsTheSameRoute()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".gpx");
        try
        {
            Tagged().Save(path);
            Assert.Equal(Tagged().Points, RideRoute.Read(path).Points);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Theory]
    [InlineData("{\"type\":\"Feature\",\"properties\":{\"surface\":\"gravel\",\"mtb:scale\":\"2+\",\"sac_scale\":\"mountain_hiking\",\"smoothness\":\"very_bad\",\"mtb:scale:imba\":3,\"mtb:scale:uphill\":\"1\"},\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[7,45],[7.01,45]]}}")]
    [InlineData("<gpx><trk><extensions><tag k='surface' v='gravel'/><tag k='mtb:scale' v='2'/><sac_scale>mountain_hiking</sac_scale><smoothness>very_bad</smoothness><mtb_scale_imba>3</mtb_scale_imba><mtb_scale_uphill>1</mtb_scale_uphill></extensions><trkseg><trkpt lat='45' lon='7'/><trkpt lat='45' lon='7.01'/></trkseg></trk></gpx>")]
    public void Sections_FromOpenTags_AreRead(string text)
    {
        RideRoute route = RideRoute.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)));
        RouteSection s = Assert.Single(route.Sections);
        Assert.Equal(TrailSurface.Gravel, s.Surface);
        Assert.Equal(TrailDifficulty.Level2, s.Difficulty);
        Assert.Equal((2, 4, 3, 1), (s.HikingLevel, s.SmoothnessLevel, s.AgencyLevel, s.UphillLevel));
        Assert.Equal(route.Length.Meters, s.To.Meters, 1e-6);
        Assert.Contains("\"mtb:scale\":\"2\"", route.ToGeoJson(), StringComparison.Ordinal);
    }

    [Fact]
    public void Sections_AtPoints_HoldUntilTheNextMark()
    {
        const string Text = "<gpx><trk><trkseg><trkpt lat='45' lon='7'/><trkpt lat='45' lon='7.01'><extensions><surface>sand</surface></extensions></trkpt><trkpt lat='45' lon='7.02'/><trkpt lat='45' lon='7.03'><extensions><surface>rock</surface></extensions></trkpt><trkpt lat='45' lon='7.04'/></trkseg></trk></gpx>";
        RideRoute route = RideRoute.Read(new MemoryStream(Encoding.UTF8.GetBytes(Text)));
        Assert.Equal([TrailSurface.Sand, TrailSurface.Rock], route.Sections.Select(s => s.Surface));
        Assert.Equal(route.DistanceAt(1).Meters, route.Sections[0].From.Meters, 1e-9);
        Assert.Equal(route.DistanceAt(3).Meters, route.Sections[0].To.Meters, 1e-9);
        Assert.Equal([TrailSurface.Rock, TrailSurface.Sand, TrailSurface.Unknown], ElevationProfile.Of(route.Reversed()).Steps(Length.FromMeters(800)).Select(s => s.Surface).Distinct());
    }

    [Fact]
    public void WithSections_Overlapping_SaysWhich()
        => Assert.Contains("Section 1", Assert.Throws<ArgumentException>(() => RideRouteTests.Walk(1, 50).WithSections(
            [new RouteSection(Length.Zero, Length.FromMeters(100)), new RouteSection(Length.FromMeters(50), Length.FromMeters(200))])).Message, StringComparison.Ordinal);

    private static RideRoute Tagged()
    {
        RideRoute a = RideRouteTests.Walk(8, 40), b = RideRouteTests.Walk(9, 40);
        RideRoute route = a.Then(b).WithName("Tinderbow & <loop>");
        return route.WithSections(
            [
                new RouteSection(Length.FromMeters(10.25), Length.FromMeters(500)) { Surface = TrailSurface.Rock, SurfaceTag = "rock", Difficulty = TrailDifficulty.Level3, AgencyLevel = 2 },
                new RouteSection(Length.FromMeters(600), route.Length) { Surface = TrailSurface.Sand, SurfaceTag = "sand", HikingLevel = 1, SmoothnessLevel = 7, UphillLevel = 4 },
            ])
            .WithWaypoints([new RouteWaypoint(new GeoPoint(40.5, -109.5, 1700), "Spring", "water", "last seen wet", new DateTimeOffset(2027, 6, 1, 8, 0, 0, TimeSpan.Zero)) { Comment = "treat" }]);
    }

    private static void Validate(string gpx, XmlSchemaSet schemas)
    {
        var settings = new XmlReaderSettings { ValidationType = ValidationType.Schema, Schemas = schemas };
        settings.ValidationEventHandler += (_, e) => Assert.Fail(e.Message);
        using var reader = XmlReader.Create(new StringReader(gpx), settings);
        while (reader.Read())
        {
        }
    }
}
