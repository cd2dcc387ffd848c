#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:package Akka@1.5.74
#:property PublishAot=false
#:property ManagePackageVersionsCentrally=false

// Plans spread over the workers of an actor system, here on one node. What travels is the JSON of a request and the JSON of a plan:
// a plan is a pure function of its request, so it is the same wherever it is made. The last lines hold the host to that.
using Akka.Actor;
using Akka.Routing;
using SoloRide;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? "docs/examples", "data");
RideRoute route = RideRoute.Read(Path.Combine(data, "s06-guided-ten.gpx"));
Forecast weather = Forecast.Read(Path.Combine(data, "s06-guided-ten.forecast.csv"));
DateTimeOffset start = weather.From.AddHours(8);
string[] requests = [.. Enumerable.Range(0, 12).Select(i => (RideRequest.For(route, start.AddMinutes(15 * (i % 4))) with
{
    Title = $"Rider {i + 1}",
    Weather = weather,
    Rider = new Rider { Mass = Mass.FromKilograms(60 + (3 * i)), ClimbingRate = Speed.FromMetersPerHour(400 + (25 * i)) },
    Options = new PlanOptions { Samples = 200 },
}).ToJson(PersonalData.Included))];

using ActorSystem system = ActorSystem.Create("plans", "akka { loglevel = WARNING, stdout-loglevel = WARNING }");
IActorRef workers = system.ActorOf(Props.Create<PlanWorker>().WithRouter(new RoundRobinPool(2)), "workers");
string[] plans = await Task.WhenAll(requests.Select(r => workers.Ask<string>(r, TimeSpan.FromMinutes(2))));
await system.Terminate();

int same = 0;
for (int i = 0; i < requests.Length; i++)
{
    RidePlan here = RidePlanner.Plan(RideRequest.FromJson(requests[i]));
    same += here.ToJson() == plans[i] ? 1 : 0;
    Console.WriteLine($"{here.Title,-9} start {here.Start:HH:mm}, moving {here.Moving!.Typical:hh\\:mm}: {here.Verdict.Kind}");
}

Console.WriteLine($"{same} of {plans.Length} plans made by the workers are the same bytes as those made here.");
Console.WriteLine(Cautions.Text);
return same == plans.Length ? 0 : 1;

internal sealed class PlanWorker : ReceiveActor
{
    public PlanWorker() => Receive<string>(json => Sender.Tell(RidePlanner.Plan(RideRequest.FromJson(json)).ToJson()));
}
