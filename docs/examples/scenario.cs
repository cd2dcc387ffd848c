#!/usr/bin/env dotnet
#:project scenarios/scenarios.csproj
#:property PublishAot=false

// Fifteen invented rides, each with its plan and what it shows:
//   dotnet run docs/examples/scenario.cs            all of them
//   dotnet run docs/examples/scenario.cs -- S05     one of them
using SoloRide.Demo;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? Path.Combine("docs", "examples"), "data");
try
{
    IEnumerable<string> ids = args.Length == 0 || args[0] == "all" ? Scenarios.Ids : args;
    foreach (string id in ids)
    {
        Scenarios.Of(id, data).Write(Console.Out);
    }

    return 0;
}
catch (ArgumentException e)
{
    Console.Error.WriteLine(e.Message);
    return 1;
}
