#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

// One question, one call: what the parts answer by themselves, without a plan. All places and figures are invented.
//   dotnet run docs/examples/one-question.cs
using System.Globalization;
using SoloRide;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Hydration;
using SoloRide.Kit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? Path.Combine("docs", "examples"), "data");
string file = Path.Combine(data, "s01-dry-creek-loop.gpx");
var gate = new GeoPoint(38.2, -109.4, 1500);
ZoneOffsets zone = ZoneOffsets.Fixed(-6);
var day = new DateOnly(2025, 6, 14);
DateTimeOffset dawn = new(2025, 6, 14, 5, 20, 0, TimeSpan.FromHours(-6));
var rider = new Rider { Mass = Mass.FromKilograms(82), Height = Length.FromMeters(1.81), AgeYears = 44, Sex = Sex.Male };

Part("Routes");
RouteFile read = RouteFile.Read(file);
Say("What is in this file?", $"{read.Format}, {read.Lines.Count} line, {read.Waypoints.Count} waypoints");
RideRoute route = read.ToRoute();
TrailStep[] steps = [.. ElevationProfile.Of(route).Steps(Length.FromMeters(100))];
foreach (RouteSummary s in RouteBatch.Summaries([file], new BatchOptions { MaxParallel = 1 }, new Progress<BatchProgress>()))
{
    Say("How long and how high are all my files?", $"{Path.GetFileName(s.Path)}: {s.Length!.Value.Kilometers:F1} km, up {s.Ascent!.Typical.Meters:F0} m");
}

Geodesic line = Geodesic.Between(gate, new GeoPoint(38.26, -109.31));
Say("How far and which way is that hut?", $"{line.Length.Kilometers:F2} km on {line.InitialBearing.Degrees:F0} degrees");

Part("Daylight");
SolarPosition sun = SolarPosition.At(dawn.AddHours(4), gate);
Say("Where is the sun at 09:20?", $"{sun.AltitudeDeg:F1} degrees up, on {sun.AzimuthDeg:F0}");
ClearSkyIrradiance sky = ClearSkyIrradiance.Of(sun, gate, 0.2, ClearSkyOptions.Default with { LinkeTurbidityFactor = 3 });
Say("How strong is it?", $"{sky.GlobalWPerM2:F0} W/m2 on level ground");
DaylightRange year = DaylightRange.Over(new DateOnly(2025, 1, 1), new DateOnly(2025, 12, 31), gate, zone);
Say("When is dusk earliest?", $"{year.EarliestCivilDusk!.Value.At:HH:mm} on {year.EarliestCivilDusk.Value.At:d MMMM}");
MoonDay moon = MoonDay.On(day, gate, zone);
Say("When does the moon rise?", moon.Moonrise.ToString());
DateTimeOffset[] clock = [.. Enumerable.Range(0, 13).Select(h => dawn.AddHours(6 + h))];
GeoPoint[] here = [.. clock.Select(_ => gate)];
Say("How long do I need lights?", $"{RideLight.Along(clock, here).NeedingLights.TotalHours:F1} h of {clock.Length - 1}");
Say("Will I be back before 21:15?", $"late in {100 * DaylightMargin.To(dawn.AddHours(15.9), Estimate.Of(dawn.AddHours(13), dawn.AddHours(11), dawn.AddHours(16))).LateProbability:F0} of 100 such rides");
SunOnRoute shade = SunOnRoute.Along(clock, here, new Slope());
Say("Is that hillside in shade?", $"{shade.TerrainShade.TotalHours:F1} h of terrain shade");

Part("Effort");
Say("What does my body burn at rest?", $"{EnergyEstimator.Resting(rider, RestingEquation.MifflinStJeor).Energy.Typical.Kilocalories:F0} kcal a day");
EnergyReading hour = EnergyEstimator.FromClass(rider, MetabolicClass.High, TimeSpan.FromHours(1));
Say("And in an hour of hard going?", $"{hour.Energy.Typical.Kilocalories:F0} kcal ({hour.Method})");
Say("By the compendium, riding off road?", $"{EnergyEstimator.FromActivity(rider, 1009, CompendiumEdition.Edition2011, TimeSpan.FromHours(1)).Energy.Typical.Kilocalories:F0} kcal an hour");
foreach (HikingRule rule in new[] { HikingRule.Naismith, HikingRule.ToblerPath, HikingRule.SwissSignpost })
{
    Say($"How long on foot by {rule}?", $"{HikingTimeEstimator.Time(steps, rule).TotalHours:F1} h");
}

FoodPlan food = FoodPlanner.Plan(new FoodRequest
{
    Rider = rider,
    Days = [new FoodDay(TimeSpan.FromHours(7), TimeSpan.FromHours(5.5), Energy.FromKilocalories(3400))],
    Foods = [.. GenericFoods.All, new FoodItem("date bar", 380, 62, 12, 8) { Use = FoodUse.Eat }],
});
FoodDayPlan eaten = food.Days[0];
Say("What shall I eat on seven hours?", $"{eaten.CarbohydrateEaten.Grams:F0} g of carbohydrate in {eaten.Eaten.Kilocalories:F0} kcal");

Part("Hydration");
var sweat = Estimate.Of(VolumeFlow.FromLitersPerHour(0.7), VolumeFlow.FromLitersPerHour(0.4), VolumeFlow.FromLitersPerHour(1.1));
SodiumEstimate salt = SodiumEstimator.Estimate(rider, sweat);
Say("How much salt do I lose?", $"{salt.LossRate.Typical.GramsPerHour * 1000:F0} mg of sodium an hour");
FilterOrCarry choice = FilterOrCarryCalculator.Compare(
    new WaterCarryRequest
    {
        Demand = [WaterDemand.FromSweat(Length.Zero, Length.FromKilometers(58), sweat, TimeSpan.FromHours(6))],
        Sources = [new WaterSource { Name = "Alder Spring", AlongRoute = Length.FromKilometers(22), WetProbability = 1 }],
        Capacity = Volume.FromLiters(9),
    },
    new TreatmentKit { Method = new WaterTreatment(WaterTreatmentMethod.Filter), Mass = Mass.FromGrams(90), Lost = Known.No });
foreach (WaterSupplyOption o in new[] { choice.CarryAll, choice.Treat, choice.FirstMethodLost })
{
    Say($"Filter or carry: {o.Way}?", $"{o.StartMass.Kilograms:F1} kg at the start, {(o.Works ? "holds" : "does not hold")}");
}

Part("Batteries");
CellPack cell = CellPack.LithiumIon(3350);
PackAge age = AgeingEstimator.Health(new PackHistory { Age = TimeSpan.FromDays(3 * 365), FullCycles = 120 });
Say("What is left of a three-year-old cell?", $"{100 * age.HealthFraction:F0} % of its charge");
Say("How long to charge it?", $"{ChargeEstimator.Estimate(cell, 0.2, Power.FromWatts(5), Temperature.FromDegreesCelsius(20)).ToFull!.Typical.TotalHours:F1} h to full");
IReadOnlyList<LearnedDraw> draws = DrawEstimator.Learn(
    [new GaugeReading(TimeSpan.Zero, 0.96, "map"), new GaugeReading(TimeSpan.FromHours(2), 0.80, "map"), new GaugeReading(TimeSpan.FromHours(4), 0.63, "map")], CellPack.LithiumIon(4000, 3.85));
Say("What does my phone really draw?", $"{draws[0].Mode}: {draws[0].Draw.Typical.Watts:F2} W");
BankAllocation bank = BankPlanner.Allocate(
    Energy.FromWattHours(12), [new BankClaim("lamp", Energy.FromWattHours(8), 0.85, Power.FromWatts(5)) { SafetyOrder = 1 }, new BankClaim("phone", Energy.FromWattHours(9), 0.85, Power.FromWatts(10))], TimeSpan.FromHours(3), PortSharing.OneAfterAnother);
Say("Who gets the bank?", string.Join(", ", bank.Shares.Select(s => $"{s.Name} {s.FromPort.WattHours:F1} Wh")));
MessageCost message = MessageEstimator.Estimate(new MessageAttempts { Sky = SkyView.DenseCanopy });
Say("What does a message cost under dense trees?", $"{message.Expected.WattHours:F2} Wh, {message.For95.WattHours:F2} to be 95 % sure");

Part("Kit");
InspectionSheet check = InspectionSheet.For(InspectionForm.Remote, [new ServiceRecord("brakes.pads") { Fault = Known.Yes }], day);
Say("What must be looked at before a remote ride?", $"{check.Checks.Count} checks, {check.AddedForRemote.Count} of them for being far out; plan void: {check.PlanIsVoid}");
FirstAidReview aid = FirstAidReview.Of([new FirstAidItem("elastic bandage", FirstAidUse.ElasticBandage), new FirstAidItem("dressing", FirstAidUse.Dressing) { ExpiresOn = new DateOnly(2024, 1, 31) }], TimeSpan.FromHours(8), day);
Say("What does my first-aid kit lack?", string.Join(", ", aid.Gaps.Take(3).Select(g => g.Injury.ToString())));
Say("How often is a rider hurt in seven hours of an event?", $"{100 * FirstAidReview.InjuryProbability(InjurySetting.MarathonEvent, TimeSpan.FromHours(7)):F1} of 100");

Part("Escape");
RoutePosition where = OffRoute.Test(route, new GeoPoint(route.Points[200].Place.LatDeg + 0.003, route.Points[200].Place.LonDeg), Length.FromMeters(15), new OffRouteOptions { Lines = [new LineFeature("Graded Road", [new GeoPoint(38.25, -109.6), new GeoPoint(38.25, -109.2)])] });
Say("Am I off the route?", $"{where.Verdict}: {where.OffBy.Meters:F0} m; back on {where.BackToRoute.BearingDeg:F0} degrees");
Say("And what now?", LostAdvice.Sentences[0]);
ThunderThreshold thunder = ThunderThreshold.For(TimeSpan.FromMinutes(25), Speed.FromKilometersPerHour(40));
Say("When is a storm too close?", $"within {thunder.StormDistance.Kilometers:F0} km");
NavigationCheck means = NavigationCheck.Of([new NavigationMeans("phone map", ["phone"]), new NavigationMeans("paper map", ["paper"])]);
Say("Do my two maps fail together?", means.AreIndependent ? "no" : string.Join(", ", means.SharedFailures));
AlternateNeed alternate = AlternateExit.Check(dawn.AddHours(8), [new ForecastJudgement(dawn.AddHours(7), dawn.AddHours(9), Known.No)], "Graded Road");
Say("Do I need another way out in mind?", alternate.Reason);
var net = new TrailNetwork(4, [new TrailLink(0, 1, TimeSpan.FromMinutes(50), TimeSpan.FromMinutes(40)), new TrailLink(1, 2, TimeSpan.FromMinutes(30), TimeSpan.FromMinutes(35)), new TrailLink(2, 3, TimeSpan.FromMinutes(70), TimeSpan.FromMinutes(60))], [new NetworkExit(0, "Lower Gate"), new NetworkExit(3, "Graded Road")]);
NetworkWalkOut out1 = net.WalkOut();
Say("Where is it farthest from anywhere?", $"{out1.Worst()!.Time.TotalMinutes:F0} min on foot, on link {out1.Worst()!.Link}");

Part("Contact");
StatusMessage late = StatusMessage.Compose(new MessageRequest { Kind = MessageKind.LateButFine, SentAt = dawn.AddHours(7), RiderName = "Rider One", Position = gate });
Say("What do I send when I am late?", late.Body);
DistressCard card = DistressCard.Make([new CommunicationMeans(MeansKind.SatelliteMessenger), new CommunicationMeans(MeansKind.Telephone)], null);
Say("What must be ready before a call for help?", card.HaveReady[0]);
DistressSignal signal = DistressCard.Signals.First(s => s.Kind == SignalKind.SoundOrLight);
Say("And without any device?", $"{signal.Name}: {signal.Pattern}");
UtmPosition utm = UtmPosition.Of(gate);
Say("Where am I in words?", $"{DegreesMinutes.Format(gate)} = {GridReference.Of(gate, GridPrecision.TenMetres).ToSpacedString()} = {utm}");

Part("Planning");
RideRequest ride = RideRequest.For(route, dawn) with { PreparedAt = dawn.AddHours(-12), Zone = zone, Rider = rider, Load = new Load { WaterCapacity = Volume.FromLiters(5) }, Options = PlanOptions.Default with { Samples = 200 } };
TripPlan trip = TripPlanner.Plan(new TripRequest { Ride = ride, Days = 2, Camps = [new Camp { Name = "Mesa Camp", AlongRoute = Length.FromKilometers(30), Water = Known.Yes }] });
foreach (TripDay d in trip.Days)
{
    Say("And in two days?", $"day {d.Number}: {d.Plan.Length.Kilometers:F0} km, {d.Plan.Moving!.Typical.TotalHours:F1} h of riding");
}

IReadOnlyList<string> changes = PlanDifference.Between(RidePlanner.Plan(ride), RidePlanner.Plan(ride with { Start = dawn.AddHours(1) }));
Say("What changes when I start an hour later?", changes.Count == 0 ? "nothing" : changes[0]);
Console.WriteLine();
Console.WriteLine(Cautions.Text);

static void Part(string name) => Console.WriteLine($"{Environment.NewLine}{name}");

static void Say(string question, string answer) => Console.WriteLine($"  {question,-54} {answer}");

/// <summary>A slope that rises to the west.</summary>
internal sealed class Slope : ITerrainHeights
{
    public double HeightM(double latDeg, double lonDeg) => 1500 + Math.Max(0, (-109.4 - lonDeg) * 30_000);

    public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM)
    {
        for (int i = 0; i < heightsM.Length; i++)
        {
            heightsM[i] = HeightM(latDeg[i], lonDeg[i]);
        }
    }
}
