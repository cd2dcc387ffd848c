using SoloRide.Accuracy;
using SoloRide.Planning;
using SoloRide.Routes;

namespace SoloRide.Tests.Planning;

/// <summary>Real and made route files, whole: each is planned to the end, or there is a clear reason why not.</summary>
public sealed class EveryFileTests
{
    [SkippableFact]
    public void Plan_EveryReferenceFile_EndsInAPlanOrAClearReason()
    {
        string folder = Repo.ReferenceFile("routes", "files");
        int planned = 0, refused = 0, rejected = 0, noLength = 0;
        foreach (CsvRow row in CsvTable.Read(Path.Combine(folder, "MANIFEST.csv")).Rows)
        {
            string path = Path.Combine(folder, row["file"]);
            RideRoute? route;
            try
            {
                if (!RideRoute.TryRead(path, out route, out InputFormatException? error))
                {
                    Assert.NotEmpty(error.Reason);
                    Assert.False(row["expected"] == "parse" && row.Num("line_points") > 1, $"{row["file"]}: {error.Message}");
                    rejected++;
                    continue;
                }

                RidePlan plan = RidePlanner.Plan(RideRequest.For(route, Rides.Start) with { Options = new PlanOptions { Samples = 0 } });
                Assert.NotEmpty(plan.ToText());
                Assert.NotEmpty(plan.ToJson());
                if (plan.Verdict.Kind == PlanVerdictKind.Refused)
                {
                    refused++;
                    Assert.Contains(plan.Findings, f => f.Code == "planning.no-heights");
                }
                else
                {
                    planned++;
                    Assert.True(plan.Finish!.Typical > plan.Start, row["file"]);
                }
            }
            catch (ArgumentException e) when (e.Message.Contains("has no length", StringComparison.Ordinal))
            {
                noLength++;
            }
            catch (Exception e) when (e is not Xunit.Sdk.XunitException)
            {
                Assert.Fail($"{row["file"]}: {e}");
            }
        }

        Assert.True(planned > 25, $"planned {planned}, refused {refused}, rejected {rejected}, without length {noLength}");
    }
}
