using System.Text;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Routes;

namespace SoloRide.Tests.Routes;

/// <summary>Plain points are read past the XML reader; the outcome, findings and their lines too, must be the XML reader's own.</summary>
public sealed class PlainPointTests
{
    [Property(MaxTest = 150)]
    public void Read_MixedPoints_IsWhatTheXmlReaderReads(ushort seed)
        => Assert.Null(MixedGpx.Difference(Encoding.UTF8.GetBytes(MixedGpx.Make(seed))));

    [Property(MaxTest = 150)]
    public void Read_DamagedPoints_IsWhatTheXmlReaderReads(ushort seed, ushort where, byte what)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(MixedGpx.Make(seed));
        bytes[(int)((long)where * (bytes.Length - 1) / ushort.MaxValue)] = what;
        Assert.Null(MixedGpx.Difference(bytes));
    }

    [Fact]
    public void Read_DamageAfterPlainPoints_IsFoundAtItsLine()
    {
        var text = new StringBuilder("<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n");
        for (int i = 0; i < 5000; i++)
        {
            text.Append("<trkpt lat=\"45\" lon=\"7\"><ele>1</ele></trkpt>\n");
        }

        text.Append("  <trkpt lat=\"95\" lon=\"7\"/>\n</trkseg></trk></gpx>");
        RouteFile file = RouteFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text.ToString())), "sample");
        Assert.Equal(5000, file.Lines[0].Points.Count);
        Finding bad = Assert.Single(file.Findings, f => f.Code == RoutesFindingCodes.BadPoint);
        Assert.EndsWith("line 5002", bad.Subject, StringComparison.Ordinal);
        var strict = Assert.Throws<InputFormatException>(() => RouteFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text.ToString())), "sample", new RouteReadOptions { Strict = true }));
        Assert.Equal((5002, 4), (strict.Line, strict.Position));
    }

    [Theory]
    [InlineData("<trkpt lat=\"1\" lon=\"2\"/>", 'P')]
    [InlineData(" \n<trkpt lon='2' lat='1'><time>2027-06-14T05:00:00Z</time><ele>3</ele>\t</trkpt>", 'P')]
    [InlineData("<trkpt lat=\"1\" lon=\"2\"><ele>3</ele>", 'C')]
    [InlineData("<trkpt lat=\"1\"", 'C')]
    [InlineData("<trk", 'C')]
    [InlineData("<trkpt lat=\"1\" lat=\"2\"/>", 'O')]
    [InlineData("<trkpt lat=\"1\" lon=\"2\"><hdop>1</hdop></trkpt>", 'O')]
    [InlineData("<trkpt lat=\"1\" lon=\"2\"><ele>3</ele><ele>4</ele></trkpt>", 'O')]
    [InlineData("<trkpt lat=\"1\"lon=\"2\"></trkpt>", 'O')]
    [InlineData("</trkseg></trk></gpx>", 'O')]
    public void PlainPoint_IsToldApart(string text, char outcome)
        => Assert.Equal(outcome, PlainPoint.Read(text, out _, out _) switch { PlainPoint.Outcome.Point => 'P', PlainPoint.Outcome.Cut => 'C', _ => 'O' });
}
