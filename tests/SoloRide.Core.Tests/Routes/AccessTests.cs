using System.Text;
using NetTopologySuite.Geometries;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

/// <summary>A line proves neither access nor that the trail is open or rideable: every way to a route and every file of one says it once.</summary>
public sealed class AccessTests
{
    private const string Code = "routes.access-unproven";
    private const string Gpx = "<gpx version=\"1.1\" creator=\"t\" xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><name>Fen round</name><trkseg>"
        + "<trkpt lat=\"45\" lon=\"7\"><ele>500</ele></trkpt><trkpt lat=\"45.02\" lon=\"7\"><ele>600</ele></trkpt><trkpt lat=\"45.02\" lon=\"7.02\"><ele>550</ele></trkpt></trkseg></trk></gpx>";

    private const string GeoJson = "{\"type\":\"LineString\",\"coordinates\":[[7,45,500],[7,45.02,600],[7.02,45.02,550]]}";

    public static TheoryData<string> Ways => [.. Routes().Select(r => r.How)];

    [Theory]
    [MemberData(nameof(Ways))]
    [Checks(typeof(RideRoute), CheckKind.Property)]
    public void EveryRoute_HoweverMade_SaysOnceWhatALineProves(string how)
    {
        RideRoute route = Routes().Single(r => r.How == how).Route;
        Finding told = Assert.Single(route.Findings, f => f.Code == Code);
        Assert.Equal(FindingSeverity.Note, told.Severity);
        Assert.Contains("neither access nor that the trail is open or rideable", told.Message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Ways))]
    public void EveryFileOfARoute_SaysItOnce_AlsoWhenWrittenAgain(string how)
    {
        RideRoute route = Routes().Single(r => r.How == how).Route;
        foreach ((string text, string name) in new[] { (route.ToGpx(), "a.gpx"), (route.ToGeoJson(), "a.geojson") })
        {
            Assert.Equal(2, text.Split("neither access nor").Length);
            RideRoute again = RideRoute.Read(Bytes(text), name);
            Assert.Single(again.Findings, f => f.Code == Code);
            Assert.Equal(2, again.ToGpx().Split("neither access nor").Length);
            Assert.Equal(2, RouteFile.Read(Bytes(text), name).ToGpx().Split("neither access nor").Length);
            Assert.Equal(2, RouteFile.Read(Bytes(text), name).ToGeoJson().Split("neither access nor").Length);
        }
    }

    private static IEnumerable<(string How, RideRoute Route)> Routes()
    {
        RideRoute gpx = RideRoute.Read(Bytes(Gpx), "a.gpx");
        yield return ("GPX", gpx);
        yield return ("GPX, strict", RideRoute.Read(Bytes(Gpx), "a.gpx", new RouteReadOptions { Strict = true }));
        RideRoute json = RideRoute.Read(Bytes(GeoJson), "a.geojson");
        yield return ("GeoJSON", json);
        yield return ("file", RouteFile.Read(Bytes(Gpx), "a.gpx").ToRoute());
        yield return ("places", RideRoute.FromPoints([new GeoPoint(45, 7), new GeoPoint(45.02, 7)]));
        yield return ("line string", RideRoute.FromLineString(new LineString([new Coordinate(7, 45), new Coordinate(7, 45.02)])));
        yield return ("reversed", gpx.Reversed());
        yield return ("part", gpx.Part(Length.FromMeters(10), Length.FromMeters(900)));
        yield return ("joined", gpx.Then(json));
        yield return ("named", gpx.WithName("x").WithDescription("y").WithWaypoints([]).WithSections([]));
        yield return ("cleaned", gpx.Clean().Route);
        RouteNetwork net = RouteNetwork.Of([new TrailLine(gpx), new TrailLine(RideRoute.FromPoints([gpx.End, gpx.Start], "back"))]);
        yield return ("trail", net.Trails[0].Line);
        yield return ("way", net.Way([gpx.Start, gpx.End]).Route!);
        yield return ("loop", net.Loops(new LoopRequest { Trailhead = gpx.Start, Shortest = Length.FromKilometers(1), Longest = Length.FromKilometers(20) }).Loops[0].Directions[0].Route);
        yield return ("design", RouteDesign.Of(gpx).Append(gpx.Reversed()).Route);
    }

    private static MemoryStream Bytes(string text) => new(Encoding.UTF8.GetBytes(text));
}
