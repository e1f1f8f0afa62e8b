using System.Text.Json.Serialization;

namespace CommonGround.Interchange.Walks;

/// <summary>How the walk's records travel and are kept. Row numbers have 64 bits and go as text: a script that reads them as numbers loses
/// the last ones.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, UseStringEnumConverter = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    NumberHandling = JsonNumberHandling.AllowReadingFromString | JsonNumberHandling.WriteAsString)]
[JsonSerializable(typeof(WalkPack))]
[JsonSerializable(typeof(WalkYard))]
[JsonSerializable(typeof(List<WalkTaxon>))]
[JsonSerializable(typeof(WalkNote))]
[JsonSerializable(typeof(WalkBatch))]
[JsonSerializable(typeof(WalkAnswer))]
[JsonSerializable(typeof(WalkDispute))]
[JsonSerializable(typeof(LookSaid))]
public sealed partial class WalkJson : JsonSerializerContext;
