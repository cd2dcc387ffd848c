using FsCheck.Xunit;
using SoloRide.Routes;

namespace SoloRide.Tests.Routes;

public sealed class RouteOriginTests
{
    private static readonly DateOnly Day = new(2027, 6, 1);

    [Fact]
    [Checks(typeof(RouteOrigin), CheckKind.BadInput)]
    public void Origin_BadInput_SaysWhatIsAllowed()
    {
        Assert.Throws<ArgumentNullException>(() => RouteOrigin.Of(null!));
        Assert.ThrowsAny<ArgumentException>(() => new RouteOrigin { Sensor = (RecordingSensor)99 });
        Assert.Throws<ArgumentNullException>(() => new RouteOrigin { Checked = null! });
        Assert.Throws<ArgumentOutOfRangeException>(() => new RouteOrigin().FindingsOn(Day, TimeSpan.Zero));
        Assert.Contains("before it begins", Assert.Throws<ArgumentException>(() => new RouteOrigin { RecordedFrom = Day, RecordedTo = Day.AddDays(-1) }.FindingsOn(Day)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FindingsOn_OldUndatedAndFuture_AreCautions()
    {
        Assert.DoesNotContain(Codes(Day.AddDays(-92)), c => c is "routes.old-track" or "routes.undated-track");
        Assert.Contains("routes.old-track", Codes(Day.AddDays(-93)));
        Assert.Contains("routes.undated-track", Codes(Day.AddDays(1)));
        Assert.Contains("routes.undated-track", Codes(null));
        Assert.All(new DateOnly?[] { null, Day }, d => Assert.Contains("routes.access-unproven", Codes(d)));

        static string[] Codes(DateOnly? recorded) => [.. new RouteOrigin { RecordedFrom = recorded }.FindingsOn(Day).Select(f => f.Code)];
    }

    [Fact]
    public void NotChecked_AllButWhatIsStated_IsListed()
    {
        var origin = new RouteOrigin { Checked = [OriginCheck.Permits, OriginCheck.Permits] };
        Assert.Equal(new[] { OriginCheck.Access, OriginCheck.Closures, OriginCheck.Season }, origin.NotChecked);
        Assert.Contains(origin.FindingsOn(Day), f => f.Code == "routes.not-checked" && f.Message.Contains("access, closures, season", StringComparison.Ordinal));
        Assert.DoesNotContain(new RouteOrigin { Checked = Enum.GetValues<OriginCheck>() }.FindingsOn(Day), f => f.Code == "routes.not-checked");
    }

    [Fact]
    public void Of_RecordedTrack_TellsItsDays()
    {
        var at = new DateTimeOffset(2027, 5, 3, 23, 59, 0, TimeSpan.Zero);
        RouteOrigin origin = RouteOrigin.Of(RideRoute.FromPoints([new RoutePoint(new GeoPoint(45, 7), at), new RoutePoint(new GeoPoint(45.01, 7), at.AddMinutes(2))]));
        Assert.Equal((new DateOnly(2027, 5, 3), new DateOnly(2027, 5, 4)), (origin.RecordedFrom!.Value, origin.RecordedTo!.Value));
        Assert.Null(RouteOrigin.Of(RideRoute.FromPoints([new GeoPoint(45, 7), new GeoPoint(45.01, 7)])).RecordedFrom);
    }

    [Property]
    [Checks(typeof(RouteOrigin), CheckKind.Property)]
    public bool And_OfTwo_IsNeverBetterThanEither(ushort a, ushort b, bool undated)
    {
        var x = new RouteOrigin { RecordedFrom = Day.AddDays(-a), Checked = [OriginCheck.Access, OriginCheck.Season] };
        var y = new RouteOrigin { RecordedFrom = undated ? null : Day.AddDays(-b), Checked = [OriginCheck.Access] };
        RouteOrigin both = x.And(y), turned = y.And(x);
        return both.RecordedFrom == turned.RecordedFrom && both.RecordedFrom == (undated ? null : Day.AddDays(-Math.Max(a, b)))
            && both.Checked.SequenceEqual([OriginCheck.Access]) && both.NotChecked.SequenceEqual(turned.NotChecked);
    }
}
