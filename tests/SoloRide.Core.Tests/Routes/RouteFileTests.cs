using System.IO.Compression;
using System.Text;
using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Routes;

namespace SoloRide.Tests.Routes;

public sealed class RouteFileTests
{
    public static TheoryData<string> OwnFiles => [.. CsvTable.Read(Repo.Data("routes", "manifest.csv")).Rows.Select(r => r["file"])];

    // Source: statistics by an independent parser and GeodSolve; see Data/routes/README.md.
    [Theory]
    [MemberData(nameof(OwnFiles))]
    [Checks(typeof(RouteFile), CheckKind.Outside)]
    [Checks(typeof(RideRoute), CheckKind.Outside)]
    public void Read_OwnFile_IsAsTheManifestSays(string file)
    {
        CsvRow row = CsvTable.Read(Repo.Data("routes", "manifest.csv")).Rows.Single(r => r["file"] == file);
        Assert.Empty(RouteFileStatistics.Compare(row, Repo.Data("routes", Path.Combine("files", Path.GetFileName(file)))));
    }

    // Source: as above, files from public repositories; not shipped.
    [SkippableFact]
    [Checks(typeof(RouteFile), CheckKind.Outside)]
    public void Read_RealFiles_AreAsTheManifestSays()
    {
        string folder = Repo.ReferenceFile("routes", "files");
        string[] wrong = [.. CsvTable.Read(Path.Combine(folder, "MANIFEST.csv")).Rows
            .Where(r => File.Exists(Path.Combine(folder, r["file"])))
            .SelectMany(r => RouteFileStatistics.Compare(r, Path.Combine(folder, r["file"])).Select(d => r["file"] + ": " + d))];
        Assert.Empty(wrong);
    }

    [Theory]
    [InlineData("")]
    [InlineData("hello")]
    [InlineData("<html/>")]
    [InlineData("[1,2]")]
    [InlineData("{\"type\":\"LineString\",\"coordinates\":[[1,2],")]
    [InlineData("<?xml version=\"1.0\"?><!DOCTYPE gpx [<!ENTITY a \"b\">]><gpx/>")]
    [InlineData("PK\u0003\u0004")]
    [Checks(typeof(RouteFile), CheckKind.BadInput)]
    public void Read_NoRouteFile_SaysWhatAndWhere(string text)
    {
        InputFormatException e = Assert.Throws<InputFormatException>(() => Read(text));
        Assert.Equal("text", e.SourceName);
        Assert.True(e.Reason.Length > 10);
    }

    [Fact]
    [Checks(typeof(RouteFile), CheckKind.BadInput)]
    public void TryRead_MissingFile_SaysSo()
    {
        Assert.False(RouteFile.TryRead(Path.Combine(Path.GetTempPath(), "no-such-file.gpx"), out RouteFile? file, out InputFormatException? error));
        Assert.Null(file);
        Assert.Contains("no-such-file.gpx", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg><trkpt lat=\"1\"/></trkseg></trk></gpx>", "routes.bad-point")]
    [InlineData("<gpx><trk><trkseg><trkpt lat=\"1\" lon=\"2\"/></trkseg></trk></gpx>", "routes.namespace")]
    [InlineData("<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg><trkpt lat=\"1\" lon=\"2\"><ele>high</ele></trkpt></trkseg></trk></gpx>", "routes.bad-height")]
    [InlineData("<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg><trkpt lat=\"1\" lon=\"2\"><time>noon</time></trkpt></trkseg></trk></gpx>", "routes.bad-time")]
    [InlineData("<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg><trkpt lat=\"1\" lon=\"2\"><time>2027-06-14T05:20:00</time></trkpt></trkseg></trk></gpx>", "routes.time-without-zone")]
    [InlineData("<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg><trkpt lat=\"1\" lon=\"2\"/></trkseg></trk></gpx>junk", "routes.damaged-file")]
    [InlineData("<?xml version=\"1.0\" encoding=\"x-nowhere\"?><gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg><trkpt lat=\"1\" lon=\"2\"/></trkseg></trk></gpx>", "routes.bad-characters")]
    [Checks(typeof(RouteFile), CheckKind.BadInput)]
    public void Read_Leniency_IsAFindingWithItsLineAndAnExceptionWhenStrict(string text, string code)
    {
        RouteFile file = Read(text);
        Finding finding = Assert.Single(file.Findings);
        Assert.Equal(code, finding.Code);
        Assert.Contains(finding.Values, v => v.Name == "line");
        Assert.Throws<InputFormatException>(() => Read(text, new RouteReadOptions { Strict = true }));
    }

    [Fact]
    public void Read_Bounds_AreHeld()
    {
        string deep = "<gpx>" + string.Concat(Enumerable.Repeat("<a>", 100)) + string.Concat(Enumerable.Repeat("</a>", 100)) + "</gpx>";
        Assert.Contains("64 levels", Assert.Throws<InputFormatException>(() => Read(deep)).Message, StringComparison.Ordinal);
        Assert.Empty(Read(deep, new RouteReadOptions { MaxDepth = 200 }).Lines);
        string wide = "<gpx><trk><trkseg><trkpt lat=\"1\" lon=\"2\" note=\"" + new string('x', 2000) + "\"/></trkseg></trk></gpx>";
        Assert.Single(Read(wide).Lines);
        Assert.Contains("attribute longer than 1000", Assert.Throws<InputFormatException>(() => Read(wide, new RouteReadOptions { MaxAttributeLength = 1000 })).Message, StringComparison.Ordinal);
        Assert.Contains("larger than 1024 bytes", Assert.Throws<InputFormatException>(() => Read(wide, new RouteReadOptions { MaxBytes = 1024 })).Message, StringComparison.Ordinal);
        string json = string.Concat(Enumerable.Repeat("{\"geometry\":", 100));
        Assert.Throws<InputFormatException>(() => Read(json));
    }

    [Fact]
    public void Read_TwoMegabyteAttribute_IsRead()
        => Assert.Single(Read("<gpx><trk><trkseg><trkpt lat=\"1\" lon=\"2\" note=\"" + new string('x', 2_000_000) + "\"/></trkseg></trk></gpx>").Lines[0].Points);

    [Fact]
    public void Read_GzipBomb_StopsAtTheBound()
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            gzip.Write("<gpx>"u8);
            byte[] spaces = new byte[1 << 20];
            Array.Fill(spaces, (byte)' ');
            for (int i = 0; i < 8; i++)
            {
                gzip.Write(spaces);
            }
        }

        packed.Position = 0;
        Assert.Throws<InputFormatException>(() => RouteFile.Read(packed, "packed", new RouteReadOptions { MaxBytes = 1 << 20 }));
    }

    [Fact]
    public void Read_Gzip_IsThePlainFile()
    {
        byte[] plain = File.ReadAllBytes(Repo.Data("routes", "files/syn_kitchen_sink.gpx"));
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            gzip.Write(plain);
        }

        packed.Position = 0;
        RouteFile file = RouteFile.Read(packed);
        Assert.Equal(4, file.Lines.Count);
        Assert.Equal("water", Assert.Single(file.Waypoints).Name);
    }

    [Property]
    [Checks(typeof(RouteFile), CheckKind.Property)]
    public bool Read_ShuffledAttributesAndWhiteSpace_ChangeNothing(bool lonFirst, bool breaks, bool apostrophes, int lat, int lon, int ele)
    {
        string la = $"{lat % 90000 / 1000.0:0.000}".Replace(',', '.'), lo = $"{lon % 180000 / 1000.0:0.000}".Replace(',', '.'), h = $"{ele % 9000}";
        string s = breaks ? "\r\n\t " : " ", q = apostrophes ? "'" : "\"";
        string attributes = lonFirst ? $"lon={q}{lo}{q}{s}lat={q}{la}{q}" : $"lat={q} {la}{q}{s}lon={q}{lo} {q}";
        RoutePoint a = Read($"<gpx><trk><trkseg><trkpt{s}{attributes}{s}>{s}<ele>{s}{h}{s}</ele></trkpt></trkseg></trk></gpx>").Lines[0].Points[0];
        RoutePoint b = Read($"<gpx><trk><trkseg><trkpt lat=\"{la}\" lon=\"{lo}\"><ele>{h}</ele></trkpt></trkseg></trk></gpx>").Lines[0].Points[0];
        return a == b;
    }

    [Property(MaxTest = 300)]
    [Checks(typeof(RouteFile), CheckKind.Property)]
    public bool Read_AnyByteFlip_GivesAFileOrTheDocumentedException(int file, NonNegativeInt at, byte value)
    {
        string[] names = ["syn_kitchen_sink.gpx", "syn_kml_gxtrack.kml", "syn_gj_bare_linestring.geojson", "syn_utf16le_bom.gpx", "syn_windows1252.gpx"];
        byte[] bytes = File.ReadAllBytes(Repo.Data("routes", "files/" + names[(file & int.MaxValue) % names.Length]));
        bytes[at.Get % bytes.Length] = value;
        try
        {
            RouteFile.Read(new MemoryStream(bytes));
        }
        catch (InputFormatException)
        {
        }

        return true;
    }

    [Theory]
    [InlineData("1.5", 1.5)]
    [InlineData(" +4.62E1 ", 46.2)]
    [InlineData("-.5", -0.5)]
    [InlineData("5.", 5)]
    [InlineData("00000000000000000000000000001.25", 1.25)]
    [InlineData("0.1000000000000000055511151231257827021181583404541015625", 0.1)]
    [InlineData("123456789012345678901234567890", 123456789012345678901234567890.0)]
    [InlineData("1e-300", 1e-300)]
    [InlineData("179.99999999999997", 179.99999999999997)]
    public void TryNumber_Number_IsReadToTheLastDigit(string text, double value)
    {
        Assert.True(NumberText.TryNumber(text, out double v));
        Assert.Equal(value, v);
    }

    [Theory]
    [InlineData("")]
    [InlineData("1,5")]
    [InlineData("NaN")]
    [InlineData("INF")]
    [InlineData("1e")]
    [InlineData("--1")]
    [InlineData("1 2")]
    [InlineData("0x10")]
    [InlineData(".")]
    [InlineData("1_000")]
    public void TryNumber_NoNumber_IsRefused(string text) => Assert.False(NumberText.TryNumber(text, out _));

    [Property]
    public bool Decimal_AnyDouble_ReadsBackTheSame(double value)
        => !double.IsFinite(value) || (NumberText.TryNumber(NumberText.Decimal(value), out double v) && v.Equals(value) && !NumberText.Decimal(value).Contains('E', StringComparison.Ordinal));

    private static RouteFile Read(string text, RouteReadOptions? options = null) => RouteFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "text", options);
}
