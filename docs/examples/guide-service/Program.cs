// A guide service over the library, on loopback:
//   dotnet run --project docs/examples/guide-service
// It keeps nothing: no file, no session, no log of what was asked.
using GuideService;

await App.Build(args).RunAsync();
