using SoloRide.Demo;
using SoloRide.Routes;

namespace SoloRide.Tests.Planning;

/// <summary>The committed demo data are what the seeded generator makes, and have the length and ascent they are meant to have.</summary>
public sealed class DemoDataTests
{
    public static TheoryData<string> Rides => [.. DemoGenerator.All.Select(r => r.Id)];

    [Theory]
    [MemberData(nameof(Rides))]
    public void Data_MadeAnew_AreTheCommittedFiles(string id)
    {
        DemoRide ride = DemoGenerator.All.Single(r => r.Id == id);
        string file = Repo.File("docs", "examples", "data", DemoGenerator.FileName(ride));
        Assert.Equal(File.ReadAllText(file + ".gpx").ReplaceLineEndings("\n"), DemoGenerator.Gpx(ride));
        Assert.Equal(File.ReadAllText(file + ".forecast.csv").ReplaceLineEndings("\n"), DemoGenerator.ForecastCsv(ride));
    }

    [Theory]
    [MemberData(nameof(Rides))]
    public void Data_LengthAndAscent_AreThoseOfTheScenario(string id)
    {
        DemoRide ride = DemoGenerator.All.Single(r => r.Id == id);
        RideRoute route = RideRoute.Read(Repo.File("docs", "examples", "data", DemoGenerator.FileName(ride) + ".gpx"));
        ElevationProfile profile = ElevationProfile.Of(route);
        Assert.InRange(route.Length.Kilometers, ride.Km * 0.99, ride.Km * 1.01);
        Assert.True(Math.Abs(profile.Ascent.Typical.Meters - ride.AscentM) <= 0.02 * ride.AscentM, $"{id}: {profile.Ascent} for {ride.AscentM} m");
    }
}
