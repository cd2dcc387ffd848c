using SoloRide.Daylight;
using SoloRide.Exposure;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Skyline and sun on the rider; core temperature along the ride.</summary>
public sealed class SunAndHeatTests
{
    // A rim of 300 m at 500 m stands at 31.0 deg: reference table of horizon angles, arc tangent, own arithmetic.
    private const double RimDeg = 30.9638;

    [Fact]
    public void Plan_GivenSkyline_SunEndsWhenTheSunPassesIt()
    {
        var start = new DateTimeOffset(2027, 11, 8, 10, 40, 0, TimeSpan.FromHours(-6));
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(12, 20), samples: 64) with
        {
            Start = start, PreparedAt = start.AddHours(-12), Weather = null, Skylines = [HorizonProfile.Level(RimDeg)],
        });
        GeoPoint place = plan.Stations[0].Place;
        DateTimeOffset end = plan.Stations[0].LastSun!.Value;
        SolarPosition sun = SolarPosition.At(end, place);

        // Upper limb at the skyline: centre 16' below it, lifted by refraction of under 2'.
        Assert.Equal(RimDeg - 0.27, sun.AltitudeDeg, 0.06);
        SolarDay day = SolarDay.On(new DateOnly(2027, 11, 8), place, ZoneOffsets.Fixed(-6));
        Assert.True(day.Sunset.At!.Value - end > TimeSpan.FromHours(2));
        Assert.All(plan.Stations, s =>
        {
            double above = SolarPosition.At(s.Arrival.Typical, s.Place).AltitudeDeg - (RimDeg - 0.27);
            Assert.True(Math.Abs(above) < 0.1 || s.InDirectSun == above > 0, $"{s.Name} {above}");
        });
        Assert.NotNull(plan.Sun);
        Assert.Equal(0, plan.Sun!.SkylineUnknown.TotalSeconds, 1e-9);

        // Shade changes no twilight and no dusk.
        RidePlan free = RidePlanner.Plan(Rides.Request(Rides.Line(12, 20), samples: 64) with { Start = start, PreparedAt = start.AddHours(-12), Weather = null });
        Assert.Equal(free.Margins.Single(m => m.Kind == MarginKind.Daylight).Name, plan.Margins.Single(m => m.Kind == MarginKind.Daylight).Name);
        Assert.Equal(free.Stations[^1].Light, plan.Stations[^1].Light);
        Assert.Null(free.Sun);
        Assert.Null(free.Stations[0].InDirectSun);
    }

    // One computation: stations, trace and the highest tell the same run.
    [Fact]
    public void Plan_TraceAndStationsAndHighest_TellOneBody()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 0) with { Weather = Rides.Weather(30, 30), Skylines = [HorizonProfile.Level(20)] });
        Assert.All(plan.Stations, s => Assert.Equal(s.CoreTemperature!.Typical.DegreesCelsius, plan.Trace.MinBy(t => Math.Abs((t.AlongRoute - s.AlongRoute).Meters))!.RectalTemperature!.Value.DegreesCelsius, 1e-9));
        Assert.InRange(plan.Trace.Max(t => t.RectalTemperature!.Value.DegreesCelsius), plan.Heat!.HighestCore.Typical.DegreesCelsius - 0.2, plan.Heat.HighestCore.Typical.DegreesCelsius + 1e-9);
        Assert.All(RidePlanner.Plan(Rides.Request(samples: 0) with { Weather = null }).Trace, t => Assert.Null(t.RectalTemperature));
    }

    [Fact]
    public void Text_HeatSunAndMissing_InBothMeasures()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 64) with { Weather = Rides.Weather(36, 40), Skylines = [HorizonProfile.Level(20)], Exits = [], WaitingOutfit = null });
        string core = plan.Heat!.HighestCore.Typical.DegreesCelsius.ToString("F1", System.Globalization.CultureInfo.InvariantCulture) + " C";
        string us = ((plan.Heat.HighestCore.Typical.DegreesCelsius * 9 / 5) + 32).ToString("F1", System.Globalization.CultureInfo.InvariantCulture) + " F";
        foreach (MeasureSystem units in Enum.GetValues<MeasureSystem>())
        {
            var options = new PlanTextOptions { Units = units };
            foreach (string page in new[] { plan.ToText(options), plan.ToMarkdown(options), plan.ToHtml(options) })
            {
                string line = string.Join(' ', page.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
                Assert.Contains("Wet-bulb globe up to", line, StringComparison.Ordinal);
                Assert.Contains(units == MeasureSystem.UsCustomary ? us : core, line, StringComparison.Ordinal);
                Assert.Contains("in the shade of terrain", line, StringComparison.Ordinal);
                Assert.Contains("Not given", line, StringComparison.Ordinal);
                Assert.DoesNotContain(units == MeasureSystem.UsCustomary ? core : us, line, StringComparison.Ordinal);
            }
        }

        Assert.DoesNotContain("Wet-bulb", RidePlanner.Plan(Rides.Request(samples: 0) with { Weather = null }).ToText(), StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_WallToTheSouth_TakesTheSunAndLowersSweat()
    {
        RideRequest request = Rides.Request(samples: 64) with { Weather = Rides.Weather(30, 30) };
        RidePlan open = RidePlanner.Plan(request with { Skylines = [HorizonProfile.Level()] }), wall = RidePlanner.Plan(request with { Skylines = [HorizonProfile.Level(85)] }), none = RidePlanner.Plan(request);
        Assert.True(open.Sun!.DirectSun > TimeSpan.FromHours(1));
        Assert.Equal(TimeSpan.Zero, wall.Sun!.DirectSun);
        Assert.True(wall.Sun.TerrainShade > TimeSpan.FromHours(1));
        Assert.True(wall.Needs!.Sweat.Typical < open.Needs!.Sweat.Typical * 0.97);
        Assert.Equal(none.Needs!.Sweat.Typical.Liters, open.Needs.Sweat.Typical.Liters, 1e-9);
        Assert.True(wall.Heat!.HighestCore.Typical <= open.Heat!.HighestCore.Typical);
        Assert.True(wall.Stations[1].SunAbsorbed < open.Stations[1].SunAbsorbed);
    }

    [Fact]
    public void Plan_TerrainWithAWall_IsReadAsASkyline()
    {
        var wall = new Wall();
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 32), wall);
        Assert.NotNull(plan.Sun);
        Assert.True(plan.Sun!.TerrainShade > TimeSpan.FromMinutes(10), plan.Sun.ToString());
        Assert.Contains(plan.Stations, s => s.InDirectSun == false);
    }

    [Fact]
    public void Plan_ColdAndShade_FlagIce()
    {
        var start = new DateTimeOffset(2027, 6, 14, 9, 0, 0, TimeSpan.FromHours(-6));
        RideRequest cold = Rides.Request(samples: 0) with { Weather = Rides.Weather(2, 80), Start = start };
        Assert.DoesNotContain(RidePlanner.Plan(cold).Findings, f => f.Code == "planning.ice");
        Finding shade = RidePlanner.Plan(cold with { Skylines = [HorizonProfile.Level(85)] }).Findings.Single(f => f.Code == "planning.ice");
        Assert.Contains("shade", shade.Message, StringComparison.Ordinal);
        Assert.Contains(RidePlanner.Plan(cold with { Weather = Rides.Weather(-3, 80) }).Findings, f => f.Code == "planning.ice");
    }

    [Fact]
    public void Plan_Heat_RisesWithTheAirAndIsTheStandardsRunOnConstantConditions()
    {
        RideRequest At(double c) => Rides.Request(Rides.Line(20, 0), samples: 128) with { Weather = Rides.Weather(c, 30) };
        RidePlan mild = RidePlanner.Plan(At(12)), hot = RidePlanner.Plan(At(38));
        Assert.True(hot.Heat!.HighestCore.Typical >= mild.Heat!.HighestCore.Typical);
        Assert.True(hot.Heat.LimitProbability >= mild.Heat.LimitProbability);
        Assert.Contains(hot.Findings, f => f.Code == "planning.core-heat");
        Assert.Equal(16, hot.Heat.Samples);
        Assert.Equal(36.8, hot.Stations[0].CoreTemperature!.Typical.DegreesCelsius, 1e-9);
        for (int i = 1; i < hot.Stations.Count; i++)
        {
            Assert.True(hot.Stations[i].CoreTemperature!.Typical.DegreesCelsius <= hot.Heat.HighestCore.Typical.DegreesCelsius + 1e-9);
        }

        // On the level, at night (no sun to change): the public entry run over the same minutes with the same air and power.
        var night = new DateTimeOffset(2027, 6, 14, 23, 0, 0, TimeSpan.FromHours(-6));
        RideRequest request = At(28) with { Start = night, PreparedAt = night.AddHours(-3), Options = new PlanOptions { Samples = 0 }, Devices = [SoloRide.Batteries.Device.Phone("p", 3000)] };
        var findings = new List<Finding>();
        var model = new RideModel(request, RideCourse.Of(request, null, findings)!, request.Start, request.Zone!, null, findings, default);
        var course = new SectionTrace(model.Input.Sections);
        SimulationKernel.Middle(model.WithWater(2, [], []), _ => true, course);
        new HeatAlong(model).Run(course, 0, [], out double highest, out _, out _);
        HeatAir air = model.Sweat.AirAt(1800, 1500);
        double area = HeatStrain.BodyArea(Mass.FromKilograms(76), Length.FromCentimeters(178)).SquareMeters;
        HeatStep[] steps = [.. Enumerable.Range(0, course.ClockSec.Length).Select(j =>
        {
            double from = j == 0 ? 0 : course.ClockSec[j - 1], watts = (course.Joules[j] - (j == 0 ? 0 : course.Joules[j - 1])) / (course.ClockSec[j] - from);
            return new HeatStep
            {
                Duration = TimeSpan.FromSeconds(course.ClockSec[j] - from), AirTemperature = Temperature.FromDegreesCelsius(28), MeanRadiantTemperature = Temperature.FromDegreesCelsius(air.RadiantSunC),
                RelHumidityPct = 30, AirSpeed = Speed.FromMetersPerSecond(air.AirMps), MetabolicRate = HeatFlux.FromWattsPerSquareMeter(watts / area), ExternalWork = HeatFlux.FromWattsPerSquareMeter(SweatTable.WorkW(watts) / area),
            };
        })];
        double public_ = HeatStrain.Over(request.Rider, steps).Minutes.Max(m => m.State.RectalC);
        Assert.Equal(public_, highest, 0.02);
    }

    /// <summary>Ground at 1,500 m with a wall of 900 m half a kilometre to the east.</summary>
    private sealed class Wall : ITerrainHeights
    {
        public double HeightM(double latDeg, double lonDeg) => lonDeg > -108.9945 && lonDeg < -108.98 ? 2400 : 1500;

        public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM)
        {
            for (int i = 0; i < heightsM.Length; i++)
            {
                heightsM[i] = HeightM(latDeg[i], lonDeg[i]);
            }
        }
    }
}
