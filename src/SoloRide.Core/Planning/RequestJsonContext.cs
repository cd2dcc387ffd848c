using System.Text.Json.Serialization;

namespace SoloRide.Planning;

[JsonSourceGenerationOptions(
    WriteIndented = true,
    PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    UseStringEnumConverter = true,
    Converters = [typeof(NumberColumnConverter)],
    NewLine = "\n")]
[JsonSerializable(typeof(RequestDocument))]
[JsonSerializable(typeof(TripRequestDocument))]
[JsonSerializable(typeof(RidingGroupDocument))]
internal sealed partial class RequestJsonContext : JsonSerializerContext;
