#:sdk Microsoft.NET.Sdk.Web
#:project ../docs/examples/guide-service/guide-service.csproj
#:property PublishAot=false

// The printable pages of the guide service in a real headless browser; by hand, not part of .ci/run:
//   dotnet run .ci/pages-in-browser.cs -- BROWSER [FOLDER]
// The sheet that stays at home must print on one page, both pages must load without a script, a request of their own or an error, and show the cautions.
using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using GuideService;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using SoloRide;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

if (args.Length is 0 or > 2)
{
    Console.Error.WriteLine("usage: pages-in-browser BROWSER [FOLDER]");
    return 2;
}

string folder = Path.GetFullPath(args.Length > 1 ? args[1] : Path.Combine(".out", "browser"));
Directory.CreateDirectory(folder);
await using WebApplication app = App.Build(["--urls", "http://127.0.0.1:0", "--Logging:LogLevel:Default=Error"]);
await app.StartAsync();
using var client = new HttpClient { BaseAddress = new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()) };
string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? ".ci", "..", "docs", "examples", "data");
var start = new DateTimeOffset(2025, 6, 14, 5, 20, 0, TimeSpan.FromHours(-6));
RideRequest request = RideRequest.For(RideRoute.Read(Path.Combine(data, "s01-dry-creek-loop.gpx")), start) with
{
    PreparedAt = start.AddHours(-12),
    Zone = ZoneOffsets.Fixed(-6),
    Weather = Forecast.Read(Path.Combine(data, "s01-dry-creek-loop.forecast.csv")),
    Rider = new Rider { Mass = Mass.FromKilograms(82), SustainedPower = Power.FromWatts(165) },
    Load = new Load { WaterCapacity = Volume.FromLiters(6.5) },
};
var ride = JsonNode.Parse(request.ToJson(PersonalData.Included))!;
var sheet = new JsonObject
{
    ["request"] = ride.DeepClone(),
    ["rider"] = new JsonObject { ["name"] = "Rider One", ["phone"] = "555 0101", ["clothing"] = "red jacket", ["bike"] = "green, 29 inch", ["experience"] = "fifteen years", ["description"] = "180 cm, grey hair", ["helmet_and_pack"] = "white helmet, orange pack" },
    ["contacts"] = new JsonArray(new JsonObject { ["name"] = "Contact One", ["phone"] = "555 0102", ["offset_hours"] = 1 }),
};
int failed = 0;
foreach ((string name, string path, JsonNode body, int pages) in new (string, string, JsonNode, int)[] { ("sheet", "/sheets", sheet, 1), ("plan", "/plans", ride, 12) })
{
    using var call = new HttpRequestMessage(HttpMethod.Post, path) { Content = new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json") };
    call.Headers.Accept.ParseAdd("text/html");
    using HttpResponseMessage reply = await client.SendAsync(call);
    string html = await reply.Content.ReadAsStringAsync();
    Check(name, "replies 200", reply.StatusCode == HttpStatusCode.OK);
    string file = Path.Combine(folder, name + ".html"), pdf = Path.Combine(folder, name + ".pdf");
    await File.WriteAllTextAsync(file, html);
    string shown = await BrowseAsync("--dump-dom", file);
    await BrowseAsync("--print-to-pdf=" + pdf, "--no-pdf-header-footer", file);
    await BrowseAsync("--screenshot=" + Path.Combine(folder, name + ".png"), "--window-size=1000,1400", file);
    Check(name, "is shown whole", shown.Contains("</html>", StringComparison.Ordinal) && Plain(html) == Plain(shown));
    Check(name, "has the cautions", Cautions.Sentences.All(s => Plain(shown).Contains(s, StringComparison.Ordinal)));
    Check(name, "asks for nothing else", !Regex.IsMatch(html, "<script|<link|src=\"http|url\\("));
    int printed = Regex.Count(Encoding.Latin1.GetString(await File.ReadAllBytesAsync(pdf)), @"/Type\s*/Page[^s]");
    Check(name, $"prints on {printed} pages, at most {pages}", printed >= 1 && printed <= pages);
}

return failed == 0 ? 0 : 1;

void Check(string page, string what, bool holds)
{
    Console.WriteLine($"{(holds ? "ok  " : "FAIL")} {page} {what}");
    failed += holds ? 0 : 1;
}

static string Plain(string html) => Regex.Replace(WebUtility.HtmlDecode(Regex.Replace(Regex.Replace(html, "<(style|title)[^>]*>.*?</\\1>", " ", RegexOptions.Singleline), "<[^>]*>", " ")), @"\s+", " ").Trim();

async Task<string> BrowseAsync(params string[] what)
{
    var info = new ProcessStartInfo(args[0]) { RedirectStandardOutput = true, RedirectStandardError = true };
    foreach (string a in (string[])["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--user-data-dir=" + Path.Combine(folder, "profile"), .. what])
    {
        info.ArgumentList.Add(a);
    }

    using Process browser = Process.Start(info)!;
    Task<string> text = browser.StandardOutput.ReadToEndAsync(), errors = browser.StandardError.ReadToEndAsync();
    using var limit = new CancellationTokenSource(TimeSpan.FromMinutes(2));
    await browser.WaitForExitAsync(limit.Token);
    _ = await errors;
    return await text;
}
