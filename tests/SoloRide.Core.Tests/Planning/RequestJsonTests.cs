using System.Collections;
using System.Globalization;
using System.Reflection;
using FsCheck.Xunit;
using SoloRide.Batteries;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Kit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>A request goes into JSON and comes back whole.</summary>
public sealed class RequestJsonTests
{
    private static RideRequest Back(RideRequest request) => RideRequest.FromJson(request.ToJson(PersonalData.Included));

    [Fact]
    public void Schema_IsThePublishedOne() => Approved.Check(RequestSchema.Ride.Text, "docs", "schema", "request.schema.json");

    [Fact]
    public void Json_EveryMemberSet_ComesBackTheSame()
    {
        RideRequest request = Full();
        string json = request.ToJson(PersonalData.Included);
        RideRequest back = RideRequest.FromJson(json);
        Assert.Equal(json, back.ToJson(PersonalData.Included));
        Assert.Empty(Differences(request, back, "request"));
    }

    // Holds new members: one that the full example leaves at its default would pass unseen.
    [Fact]
    public void FullExample_SetsEveryMemberToSomethingElseThanItsDefault()
    {
        RideRequest bare = new() { Route = Rides.Line(1), Start = Rides.Start.AddDays(1) };
        RideRequest full = Full();
        string[] same = [.. Unset(full, bare, ""), .. Unset(full.Rider, bare.Rider, "Rider."), .. Unset(full.Bike, bare.Bike, "Bike."), .. Unset(full.Load, bare.Load, "Load."),
            .. Unset(full.Pace, bare.Pace, "Pace."), .. Unset(full.Options, bare.Options, "Options."), .. Unset(full.KitCaps, bare.KitCaps, "KitCaps.")];
        Assert.True(same.Length == 0, $"Set these in the full example, and write and read them in RequestJson: {string.Join(", ", same)}");

        static IEnumerable<string> Unset(object full, object bare, string prefix)
            => full.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.SetMethod is not null && p.GetIndexParameters().Length == 0)
                .Where(p => !Differences(p.GetValue(full), p.GetValue(bare), p.Name).Any()).Select(p => prefix + p.Name);
    }

    [Fact]
    public void Plan_OfWhatIsReadBack_IsTheSamePlan()
    {
        RideRequest request = Full();
        Assert.Equal(RidePlanner.Plan(request).ToJson(), RidePlanner.Plan(Back(request)).ToJson());
    }

    public static TheoryData<string> DemoFiles
        => [.. Directory.GetFiles(Repo.File("docs", "examples", "data"), "*.gpx").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(DemoFiles))]
    public void Plan_OfDemoRide_ThroughJson_IsTheSamePlan(string name)
    {
        string file = Repo.File("docs", "examples", "data", name);
        Forecast forecast = Forecast.Read(file + ".forecast.csv");
        RideRequest request = RideRequest.For(RideRoute.Read(file + ".gpx"), forecast.From.AddHours(7)) with { Weather = forecast, Options = new PlanOptions { Samples = 50 } };
        Assert.Equal(RidePlanner.Plan(request).ToJson(), RidePlanner.Plan(Back(request)).ToJson());
    }

    [Property(MaxTest = 25)]
    public void Plan_OfAnyRequest_ThroughJson_IsTheSamePlan(int seed)
    {
        var random = new Random(seed);
        RideRoute route = Rides.Line(3 + (random.NextDouble() * 12), 20 + (random.NextDouble() * 80), 2 + random.NextDouble(), random.NextDouble() * 2500);
        double a = random.NextDouble() * route.Length.Meters / 2, b = a + (route.Length.Meters / 3);
        route = random.Next(4) switch { 0 => route.Reversed(), 1 => route.Part(Length.FromMeters(a), Length.FromMeters(b)), _ => route };
        RideRequest request = Rides.Request(route, random.Next(2) * 60) with
        {
            Exits = [],
            Start = Rides.Start.AddMinutes(random.NextDouble() * 900),
            Rider = new Rider { Mass = Mass.FromKilograms(50 + (random.NextDouble() * 50)), ClimbingRate = Speed.FromMetersPerHour(300 + (random.NextDouble() * 700)) },
            Sources = [new WaterSource { Name = "Spring", AlongRoute = Length.FromMeters(random.NextDouble() * route.Length.Meters), WetProbability = random.NextDouble() }],
            Devices = [Device.Phone("phone", 2000 + (random.NextDouble() * 3000))],
            FailureRates = new Dictionary<FailureKind, FailureRate> { [FailureKind.TubePuncture] = FailureRate.FromLog(random.Next(6), Length.FromKilometers(random.NextDouble() * 500)) },
            Pace = new PaceOptions { SlowestRide = Speed.FromKilometersPerHour(2 + (random.NextDouble() * 3)), HomeElevation = Length.FromFeet(random.NextDouble() * 5000) },
        };
        Assert.Equal(RidePlanner.Plan(request).ToJson(), RidePlanner.Plan(Back(request)).ToJson());
    }

    [Fact]
    public void Json_InAnotherCulture_IsTheSameBytes()
    {
        string expected = Full().ToJson(PersonalData.Included);
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(expected, RideRequest.FromJson(Full().ToJson(PersonalData.Included)).ToJson(PersonalData.Included));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Json_UnlessAskedFor_HoldsNothingPersonal()
    {
        string json = Full().ToJson();
        foreach (string name in new[] { "\"rider\"", "\"sweat\"", "\"today\"", "\"calibration\"", "\"timed_ride\"", "recorded_", "mmol" })
        {
            Assert.DoesNotContain(name, json, StringComparison.Ordinal);
        }

        RideRequest back = RideRequest.FromJson(json);
        Assert.Equal(new Rider(), back.Rider);
        Assert.Null(back.Sweat);
        Assert.Null(back.Today);
        Assert.False(back.Route.HasTimes);
        Assert.Contains(RidePlanner.Plan(back).Findings, f => f.Code == "planning.no-rider");
    }

    [Fact]
    public void Json_Least_IsRouteAndStart()
    {
        RideRequest request = RideRequest.FromJson("""
            { "schema": "soloride-request-1", "start": "2027-06-14T05:20:00-06:00", "route": { "lat_deg": [38, 38.05], "lon_deg": [-109, -109], "elevation_m": [1500, null] } }
            """);
        Assert.Equal(2, request.Route.Points.Count);
        Assert.True(double.IsNaN(request.Route.Points[1].Place.ElevationM));
        Assert.Equal(TimeSpan.FromHours(-6), request.Start.Offset);
        Assert.Empty(Differences(new PlanOptions(), request.Options, "Options"));
        Assert.Empty(Differences(new PaceOptions(), request.Pace, "Pace"));
    }

    [Theory]
    [InlineData("\"rider\": { \"mass_kg\": 12 }", "$.rider.mass_kg", "allowed are 25 to 250 kg")]
    [InlineData("\"rider\": { \"climbing_rate_m_per_h\": 9000 }", "$.rider.climbing_rate_m_per_h", "allowed are 100 to 2000 m/h")]
    [InlineData("\"load\": { \"water_capacity_l\": 31 }", "$.load.water_capacity_l", "allowed are 0.2 to 30 L")]
    [InlineData("\"options\": { \"confidence_level\": 1.2 }", "$.options.confidence_level", "allowed are 0.5 to 0.99")]
    [InlineData("\"options\": { \"grace_s\": -1 }", "$.options.grace_s", "must not be negative")]
    [InlineData("\"options\": { \"response\": \"R9\" }", "$.options.response", "none of")]
    [InlineData("\"options\": { \"samples\": 2.5 }", "$.options.samples", "a whole number")]
    [InlineData("\"sources\": [{ \"name\": \"A\" }, { \"name\": \"B\", \"wet_probability\": 1.5 }]", "$.sources[1].wet_probability", "allowed are 0 to 1")]
    [InlineData("\"sources\": [null]", "$.sources[0]", "an object is expected")]
    [InlineData("\"exits\": [{ \"kind\": \"Road\" }]", "$.exits[0]", "missing: name")]
    [InlineData("\"exits\": [{ \"name\": \"\" }]", "$.exits[0].name", "must hold text")]
    [InlineData("\"watter\": 3", "$.watter", "unknown name 'watter'")]
    [InlineData("\"weather\": { \"places\": [] }", "$.weather.places", "at least one place")]
    [InlineData("\"weather\": { \"places\": [{ \"name\": \"x\", \"hours\": [{ \"time\": \"2027-06-14T05:00:00Z\", \"air_temp_c\": 99 }] }] }", "$.weather.places[0].hours[0].air_temp_c", "allowed are -80 to 60 deg C")]
    [InlineData("\"weather\": { \"places\": [{ \"name\": \"x\", \"hours\": [{ \"time\": \"2027-06-14T05:00:00\" }] }] }", "$.weather.places[0].hours[0].time", "RFC 3339 time with an offset")]
    [InlineData("\"bank\": { \"pack\": { \"chemistry\": \"LithiumNickel\", \"rated_mah\": 1, \"nominal_v\": 3.7 } }", "$.bank.pack.rated_mah", "allowed are 10 to 1000000 mAh")]
    [InlineData("\"failure_rates\": [{ \"kind\": \"TubePuncture\" }]", "$.failure_rates[0]", "known_per_km")]
    [InlineData("\"failure_rates\": [{ \"kind\": \"TubePuncture\", \"known_per_km\": 0.1 }, { \"kind\": \"TubePuncture\", \"known_per_km\": 0.2 }]", "$.failure_rates[1]", "given twice")]
    [InlineData("\"deadlines\": [{ \"kind\": \"Gate\", \"name\": \"gate\", \"from_m\": 5, \"to_m\": 2 }]", "$.deadlines[0].to_m", "before it begins")]
    [InlineData("\"zone\": { \"id\": \"x\", \"first_offset_min\": 900 }", "$.zone.first_offset_min", "allowed are -840 to 840 min")]
    [InlineData("\"checked\": { \"permits\": \"yesterday\" }", "$.checked.permits", "no date")]
    [InlineData("\"title\": 5", "$.title", "text or null is expected")]
    [InlineData("\"ends_are_exits\": \"no\"", "$.ends_are_exits", "true or false or null is expected")]
    [InlineData("\"title\": \"a\", \"title\": \"b\"", "$.title", "given twice")]
    [Checks(typeof(RideRequest), CheckKind.BadInput)]
    public void FromJson_BadMember_SaysPathAndWhatIsAllowed(string member, string path, string words)
    {
        string json = "{ \"schema\": \"soloride-request-1\", \"start\": \"2027-06-14T05:20:00-06:00\",\n\"route\": { \"lat_deg\": [38, 38.1], \"lon_deg\": [-109, -109] },\n" + member + " }";
        InputFormatException e = Assert.Throws<InputFormatException>(() => RideRequest.FromJson(json, "my.json"));
        Assert.StartsWith(path + ": ", e.Reason, StringComparison.Ordinal);
        Assert.Contains(words, e.Reason, StringComparison.Ordinal);
        Assert.Equal("my.json", e.SourceName);
        Assert.Equal(3, e.Line);
        Assert.True(e.Position > 0);
        Assert.False(RideRequest.TryFromJson(json, out RideRequest? none, out InputFormatException? error));
        Assert.Null(none);
        Assert.Equal(e.Reason, error.Reason);
    }

    [Theory]
    [InlineData("\"lat_deg\": [38, 98], \"lon_deg\": [-109, -109]", "$.route.lat_deg[1]", "allowed are -90 to 90 deg")]
    [InlineData("\"lat_deg\": [38, null], \"lon_deg\": [-109, -109]", "$.route.lat_deg[1]", "allowed are -90 to 90 deg")]
    [InlineData("\"lat_deg\": [38, 38.1], \"lon_deg\": [-109]", "$.route.lon_deg", "2 are expected")]
    [InlineData("\"lat_deg\": [], \"lon_deg\": []", "$.route.lat_deg", "at least one point")]
    [InlineData("\"lat_deg\": [38, 38.1], \"lon_deg\": [-109, -109], \"distance_m\": [0, 5]", "$.route.distance_m[1]", "is expected")]
    [InlineData("\"lat_deg\": [38, 38.1], \"lon_deg\": [-109, -109], \"sections\": [{ \"from_m\": 0, \"to_m\": 90000 }]", "$.route.sections", "the route is")]
    public void FromJson_BadRoute_SaysPathAndWhatIsAllowed(string route, string path, string words)
    {
        string json = "{ \"schema\": \"soloride-request-1\", \"start\": \"2027-06-14T05:20:00-06:00\", \"route\": { " + route + " } }";
        InputFormatException e = Assert.Throws<InputFormatException>(() => RideRequest.FromJson(json));
        Assert.StartsWith(path + ": ", e.Reason, StringComparison.Ordinal);
        Assert.Contains(words, e.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("{ \"schema\": \"soloride-request-9\" }")]
    [InlineData("{ \"schema\": \"soloride-request-1\" }")]
    public void FromJson_NoRequest_SaysSo(string json)
        => Assert.NotEmpty(Assert.Throws<InputFormatException>(() => RideRequest.FromJson(json)).Reason);

    // A text cut or changed anywhere either reads or is refused in the documented way.
    [Property(MaxTest = 150)]
    [Checks(typeof(RideRequest), CheckKind.Property)]
    public void FromJson_DamagedText_EitherReadsOrIsRefused(int at, char put)
    {
        string json = Small;
        int i = (int)((uint)at % (uint)json.Length);
        foreach (string bad in new[] { json[..i], json[..i] + put + json[(i + 1)..], json.Remove(i, 1) })
        {
            if (!RideRequest.TryFromJson(bad, out _, out InputFormatException? error))
            {
                Assert.NotEmpty(error.Reason);
            }
        }
    }

    private static readonly string Small = (Full() with { Route = Rides.Line(1), Weather = null, Exits = [], Sources = [], Deadlines = [] }).ToJson(PersonalData.Included);

    private static RideRequest Full()
    {
        RideRoute route = RideRoute.FromPoints(Rides.Line(12).Points.Select((p, i) => new RoutePoint(p.Place, Rides.Start.AddDays(-30).AddSeconds(12.345 * i))), "Full Line")
            .WithDescription("All of it")
            .WithWaypoints([new RouteWaypoint(new GeoPoint(38.01, -109, 1510), "Gate One", "exit: road", "a gate", Rides.Start.AddDays(-30)) { Comment = "locked" }])
            .WithSections([new RouteSection(Length.FromMeters(100), Length.FromMeters(3000)) { Surface = TrailSurface.Gravel, Difficulty = TrailDifficulty.Level2, UphillLevel = 2, AgencyLevel = 1, HikingLevel = 3, SmoothnessLevel = 4, SurfaceTag = "fine_gravel" }]);
        var rider = new Rider
        {
            Mass = Mass.FromKilograms(71.3),
            Height = Length.FromCentimeters(171),
            AgeYears = 44,
            Sex = Sex.Female,
            SustainedPower = Power.FromWatts(151.7),
            ClimbingRate = Speed.FromMetersPerHour(612.5),
            MaxOxygenUptakeMlPerKgMin = 47.1,
            HeatAcclimatised = Known.Yes,
            AltitudeAcclimatised = Known.No,
            SweatRate = VolumeFlow.FromLitersPerHour(0.83),
            SweatSodiumMmolPerL = 41.5,
        };
        TrailStep[] steps = [new TrailStep(900, 31, 1500, 12, TrailSurface.Gravel, TrailDifficulty.Level2), new TrailStep(700, -20)];
        var leg = new TimedLeg("ride-1", steps, TimeSpan.FromSeconds(431.25), TimeSpan.FromSeconds(30));
        PaceModel model = PaceModel.For(rider, new Bike(), new Load(), new PaceOptions());
        return new RideRequest
        {
            Route = route,
            Start = Rides.Start,
            Title = "Every member",
            PreparedAt = Rides.Start.AddHours(-11),
            Zone = new ZoneOffsets("Test/Zone", TimeSpan.FromHours(-6), [new ZoneTransition(Rides.Start.AddHours(2), TimeSpan.FromHours(-7))]),
            Rider = rider,
            Bike = new Bike { Mass = Mass.FromKilograms(15.2), AssistPower = Power.FromWatts(90), AssistBattery = Energy.FromWattHours(480), DragAreaM2 = 0.55, RollingFactor = 1.1 },
            Load = new Load { OnBody = Mass.FromKilograms(5.5), OnBike = Mass.FromKilograms(6.25), WaterCapacity = Volume.FromLiters(4.5) },
            Pace = new PaceOptions
            {
                Reserve = new PaceReserve { PowerFraction = 0.1, TechnicalFraction = 0.05 },
                Spread = new PaceSpread { RideGsdFactor = 1.2, SurfaceGsdFactor = 1.12, HundredMetreGsdFactor = 1.25, FootGsdFactor = 1.3, DescentGsdFactor = 1.17 },
                Stops = new StopHabit { MinutesPerHour = 7.5, GsdFactor = 1.5 },
                Foot = new FootHabit { WalkerPercentile = 15, Fastest = Speed.FromMetersPerSecond(1.5), PushLevelFactor = 0.8, PushSteepFactor = 0.55, PushDownFactor = 0.9, CarryLevelFactor = 0.65, CarrySteepFactor = 0.45, InjuredFactor = 0.35 },
                Calibration = new PaceCalibration
                {
                    SustainedPower = Power.FromWatts(149),
                    PowerGsdFactor = 1.05,
                    RideGsdFactor = 1.08,
                    Technique = [new TechnicalSkill(TrailDifficulty.Level2, 1.1, 1.05)],
                    DescentFactor = 0.9,
                    DescentGsdFactor = 1.08,
                    CorrelationFactor = [0.1, -0.2, 0.3],
                    StopMinutesPerHour = 8,
                    StopGsdFactor = 1.4,
                    Rides = 3,
                    Legs = 17,
                    HeldOutErrorFraction = 0.06,
                    PriorErrorFraction = 0.11,
                },
                TimedRide = leg,
                Habit = RidingHabit.Seldom,
                GrossEfficiencyFraction = 0.21,
                DriveEfficiencyFraction = 0.93,
                SlowestRide = Speed.FromMetersPerSecond(1.1),
                FadeTenHoursFraction = 0.12,
                HomeElevation = Length.FromMeters(350),
                HeatLossPerDegreeFraction = 0.008,
                RideByLampFactor = 0.7,
                FootByLampFactor = 0.75,
                FootByLampRoughFactor = 0.6,
                DescentMet = 4.5,
                StandingMet = 1.6,
                TechnicalCaps = new Dictionary<TrailDifficulty, TechnicalCap> { [TrailDifficulty.Level2] = new(Speed.FromMetersPerSecond(5), Speed.FromMetersPerSecond(7), 0.9, 1.2) },
            },
            Today = PaceUpdate.From(model, [leg]),
            Weather = new Forecast(
                [.. Rides.Weather().Places.Select(p => new ForecastPlace("low", Length.FromMeters(1450), p.Hours, new GeoPoint(38, -109), Rides.Start.AddHours(-12))),
                    new ForecastPlace("high", Length.FromMeters(2100), [new ForecastHour(Rides.Start.AddHours(-8), SoloRide.Weather.Unknown with { AirTempC = 11.5 }), new ForecastHour(Rides.Start.AddHours(40), SoloRide.Weather.Unknown)])],
                new ForecastOptions { LapseKPerKm = 6.1, WindShelterFactor = 0.45 }),
            Sources = [new WaterSource { Name = "Spring Two", Place = new GeoPoint(38.04, -109, 1500), AlongRoute = Length.FromKilometers(4), WetProbability = 0.7, LastReport = new DateOnly(2027, 6, 1), NeedsTreatment = false, Amount = Volume.FromLiters(20) }],
            StartWater = Volume.FromLiters(2.75),
            Treatment = new WaterTreatment(WaterTreatmentMethod.Filter) { FilterFlow = VolumeFlow.FromLitersPerMinute(0.9), FilterPore = Length.FromMicrometers(0.1), HeatingPerLitre = TimeSpan.FromMinutes(6), SetUp = TimeSpan.FromMinutes(3), IsCloudy = true, IsCold = true },
            Sweat = SweatCalibration.From([new WeighedRide(Mass.FromKilograms(72), Mass.FromKilograms(70.9), Volume.FromLiters(1.1), TimeSpan.FromHours(2.2)) { Conditions = new SweatConditions { Weather = SoloRide.Weather.Unknown with { AirTempC = 24, RelHumidityPct = 40 }, MetabolicRate = Power.FromWatts(500) } }]),
            Exits = [new ExitPoint { Name = "Side Road", Place = new GeoPoint(38.06, -109, 1500), AlongRoute = Length.FromKilometers(6), Kind = ExitKind.Hut, Phone = Known.Yes, PickUp = Known.No }],
            EndsAreExits = false,
            Devices =
            [
                Device.Phone("phone", 4100) with { StartChargeFraction = 0.9, IdleSince = TimeSpan.FromHours(3), SafetyOrder = 2, WeightFactor = 1.5, Intake = Power.FromWatts(9) },
                Device.Lamp("lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(3200) with { HealthFraction = 0.9, ColdTable = [new ColdPoint(Temperature.FromDegreesCelsius(-10), 0.6), new ColdPoint(Temperature.FromDegreesCelsius(20), 1)] },
                    DeviceMode.Lit("low", new LampOutput(200, 3000) { PrintedRuntime = TimeSpan.FromHours(8), Regulation = LampRegulation.StepsDown }, 1.9)),
            ],
            Bank = new PowerBank(10_000) { Name = "bank", StartChargeFraction = 0.95, IdleSince = TimeSpan.FromDays(2), ConverterEfficiencyFraction = 0.9, IdlePower = Power.FromMilliwatts(2), PortPower = Power.FromWatts(18), Ports = 2, SwitchOffBelow = Power.FromWatts(0.3), Carried = CarryPlace.Pocket },
            Beacon = new DistressBeacon { Name = "beacon", BatteryExpires = new DateOnly(2029, 1, 1), Registered = Known.Yes, SelfTests = 3, SelfTestsAllowed = 12, WorksProbability = 0.97 },
            Ways = [new MessageWay { Name = "text", Purpose = MessagePurpose.DistressCall, Needs = ["phone"], AttemptProbability = 0.4, Attempts = 4 }],
            KitItems =
            [
                new KitItem("tube", Mass.FromGrams(190), Volume.FromLiters(0.4), KitPlace.Bike, KitFunction.Tube, KitFunction.ValveCore)
                {
                    Uses = 2, WaterCapacity = Volume.FromLiters(0.1), HasOwnMount = true, HasFlame = true, MustGo = true, ExpiresOn = new DateOnly(2030, 2, 3),
                    MadeFor = new PartFit { HangerType = "h", PadShape = "p", AxleType = "a", Sprockets = 12, BeadSeatMm = 622, ValveLength = Length.FromMillimeters(48), RimDepth = Length.FromMillimeters(25), TyreWidth = Length.FromMillimeters(55), LargestTyreWidth = Length.FromMillimeters(62) },
                },
            ],
            KitCaps = new KitCaps { TotalMass = Mass.FromKilograms(9), MassOnRider = Mass.FromKilograms(6), BodyVolume = Volume.FromLiters(2), PackVolume = Volume.FromLiters(15), BikeVolume = Volume.FromLiters(10) },
            FailureRates = new Dictionary<FailureKind, FailureRate> { [FailureKind.TubePuncture] = FailureRate.FromLog(4, Length.FromKilometers(333)).Clustered(1.7), [FailureKind.Chain] = FailureRate.Known(0.0007) },
            WaitingOutfit = new Outfit([new Garment("parka", 0.7) { Mass = Mass.FromGrams(640), AirPermeabilityPerM2 = 20 }, new Garment("light trousers", 0.2)], Wetness.Damp, new ClothingOptions { DampFactor = 0.75, WetFactor = 0.45, OuterPermeabilityPerM2 = 60 }),
            WaitingShelter = Enum.GetValues<Shelter>()[^1],
            Skylines = [SoloRide.Daylight.HorizonProfile.FromAngles([3, 12.5, -1, 0, 7], new GeoPoint(38.01, -109.02, 1500)), SoloRide.Daylight.HorizonProfile.Level(2)],
            Deadlines = [new Deadline(DeadlineKind.Gate, "gate shuts", Length.FromKilometers(3), Length.FromKilometers(4), Rides.Start.AddHours(9), Rides.Start.AddHours(-1))],
            FireAllowed = Known.No,
            Checked = new Dictionary<string, DateOnly> { ["permits"] = new(2027, 6, 2), ["access"] = new(2027, 6, 1) },
            Options = new PlanOptions
            {
                Samples = 120,
                Seed = 18_446_744_073_709_551_615,
                Threads = 2,
                ConfidenceLevel = 0.85,
                StepLength = Length.FromMeters(30),
                StationSpacing = Length.FromKilometers(8),
                DaylightReserve = TimeSpan.FromMinutes(40),
                WaterReserve = Volume.FromLiters(0.4),
                ChargeReserveFraction = 0.25,
                FoodReserve = Energy.FromKilocalories(500),
                IntakeFraction = 0.75,
                DryProbability = 0.04,
                IncidentLength = TimeSpan.FromMinutes(25),
                Response = ResponseClass.R2,
                Reaction = TimeSpan.FromMinutes(20),
                MessageInterval = TimeSpan.FromHours(2),
                ClothingClo = 0.5,
                Grace = TimeSpan.FromMinutes(45),
                AccessCheckAge = TimeSpan.FromDays(200.5),
                ClosureCheckAge = TimeSpan.FromDays(30.25),
            },
        };
    }

    /// <summary>Where two values differ, member by member; numbers may differ in the last bits that a change of unit takes.</summary>
    private static IEnumerable<string> Differences(object? a, object? b, string path)
    {
        if (a is null || b is null)
        {
            return a is null && b is null ? [] : [$"{path}: {a ?? "null"} and {b ?? "null"}"];
        }

        if (a is double x && b is double y)
        {
            return x.Equals(y) || Math.Abs(x - y) <= 1e-12 * Math.Abs(x) ? [] : [$"{path}: {x:R} and {y:R}"];
        }

        if (a is IQuantity p && b is IQuantity q)
        {
            return Differences((double)p.ToUnit(p.QuantityInfo.BaseUnitInfo.Value).Value, (double)q.ToUnit(q.QuantityInfo.BaseUnitInfo.Value).Value, path);
        }

        if (a is IDictionary m && b is IDictionary n)
        {
            return m.Count == n.Count ? m.Keys.Cast<object>().SelectMany(k => Differences(m[k], n.Contains(k) ? n[k] : null, $"{path}[{k}]")) : [$"{path}: {m.Count} and {n.Count} entries"];
        }

        if (a is string or Enum or DateOnly or DateTimeOffset or TimeSpan || a.GetType().IsPrimitive)
        {
            return a.Equals(b) ? [] : [$"{path}: {a} and {b}"];
        }

        if (a is IEnumerable s && b is IEnumerable t)
        {
            object?[] u = [.. s.Cast<object?>()], v = [.. t.Cast<object?>()];
            return u.Length == v.Length ? u.SelectMany((e, i) => Differences(e, v[i], $"{path}[{i}]")) : [$"{path}: {u.Length} and {v.Length} items"];
        }

        return a.GetType() != b.GetType()
            ? [$"{path}: {a.GetType().Name} and {b.GetType().Name}"]
            : a.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(x => x.GetIndexParameters().Length == 0 && x.Name != "EqualityContract")
                .SelectMany(x => Differences(x.GetValue(a), x.GetValue(b), $"{path}.{x.Name}"));
    }
}
