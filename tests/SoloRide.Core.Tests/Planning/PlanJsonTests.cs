using System.Text.Json;
using System.Text.RegularExpressions;
using SoloRide.Planning;

namespace SoloRide.Tests.Planning;

public sealed partial class PlanJsonTests
{
    [Fact]
    public void Schema_IsThePublishedOne() => Approved.Check(PlanJson.Schema(), "docs", "schema", "plan.schema.json");

    [Fact]
    public void Json_ReadBack_IsTheSameDocument()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request());
        PlanDocument? back = JsonSerializer.Deserialize(plan.ToJson(), PlanJsonContext.Default.PlanDocument);
        Assert.Equal(plan.ToJson(), JsonSerializer.Serialize(back, PlanJsonContext.Default.PlanDocument) + "\n");
    }

    [Fact]
    public void Json_Names_CarryUnitsInSnakeCase()
    {
        using JsonDocument json = JsonDocument.Parse(RidePlanner.Plan(Rides.Request()).ToJson());
        Walk(json.RootElement, "");

        static void Walk(JsonElement e, string name)
        {
            if (e.ValueKind == JsonValueKind.Object)
            {
                foreach (JsonProperty p in e.EnumerateObject())
                {
                    Assert.Matches("^[a-z0-9_]+$", p.Name);
                    Walk(p.Value, p.Name is "low" or "typical" or "high" ? name : p.Name);
                }
            }
            else if (e.ValueKind == JsonValueKind.Array)
            {
                foreach (JsonElement x in e.EnumerateArray())
                {
                    Walk(x, name);
                }
            }
            else if (e.ValueKind == JsonValueKind.Number)
            {
                Assert.Matches(Unit(), name);
            }
        }
    }

    [GeneratedRegex("(_m|_s|_w_per_m2|_l|_kcal|_wh|_mg|_kg|_deg|_c|_pct|_hour|_fraction|_probability|level|samples)$")]
    private static partial Regex Unit();
}
