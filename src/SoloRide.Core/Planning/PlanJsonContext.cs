using System.Text.Json.Serialization;

namespace SoloRide.Planning;

[JsonSourceGenerationOptions(WriteIndented = true, PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, NewLine = "\n")]
[JsonSerializable(typeof(PlanDocument))]
[JsonSerializable(typeof(TripPlanDocument))]
[JsonSerializable(typeof(GroupPlanDocument))]
internal sealed partial class PlanJsonContext : JsonSerializerContext;
