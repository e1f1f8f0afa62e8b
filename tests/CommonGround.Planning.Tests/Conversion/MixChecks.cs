using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Ranges of shared/checks/11_mix.json: when each holds, and what a mix misses.</summary>
internal static class MixChecks
{
    private static readonly JsonElement[] Checks = Read();

    /// <summary>"slow-seed slow_share_of_forb_seeds = 0.5, wanted at most 0.36": empty for a sound mix.</summary>
    /// <param name="thin">The mix itself says that it is sown thinly: then the least rate does not count.</param>
    public static IReadOnlyList<string> Fails(IReadOnlyList<MixLine> lines, ConversionRequest request, Method method, bool thin)
    {
        var measures = MixMeasures.Of(lines, request.SquareMetres, request.TallestMetres);
        var found = new List<string>();
        foreach (var check in Checks)
        {
            var (id, measure) = (check.GetProperty("id").GetString()!, check.GetProperty("measure").GetString()!);
            if (!Holds(check.GetProperty("when"), request, method) || (thin && (id is "rate-flat" or "rate-steep"))) continue;
            // A measure that nobody works out would be a check that cannot fail.
            if (!measures.TryGetValue(measure, out var value)) throw new InvalidOperationException("No measure " + measure);
            var (least, most) = (Number(check, "min"), Number(check, "max"));
            if (value < least - 1e-9 || value > most + 1e-9) found.Add($"{id} {measure} = {value:0.###}, wanted {least} to {most}");
        }

        return found;
    }

    private static JsonElement[] Read()
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(Repository.Root(), "shared", "checks", "11_mix.json")));
        return [.. document.RootElement.GetProperty("checks").EnumerateArray().Select(c => c.Clone())];
    }

    private static double? Number(JsonElement check, string name) => check.TryGetProperty(name, out var value)
        && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;

    private static bool Holds(JsonElement when, ConversionRequest request, Method method) => when.EnumerateObject().All(c => c.Name switch
    {
        "m2_min" => request.SquareMetres >= c.Value.GetDouble(),
        "m2_max" => request.SquareMetres < c.Value.GetDouble(),
        "tallest_min" => (request.TallestMetres ?? 9) >= c.Value.GetDouble(),
        "slope_min" => request.SlopePercent >= c.Value.GetDouble(),
        "slope_max" => request.SlopePercent < c.Value.GetDouble(),
        "mode" => Any(c.Value, method switch { Method.Seed => "seed", Method.Plugs => "plug", _ => "mixed" }),
        "light" => Any(c.Value, request.Light switch { Light.FullSun => "full_sun", Light.PartShade => "part_shade", _ => "shade" }),
        "moisture" => Any(c.Value, request.Moisture.ToString().ToLowerInvariant()),
        "soil" => Any(c.Value, request.SoilTexture?.ToString().ToLowerInvariant()),
        "keep_toxic_out" => Any(c.Value, request.KeepToxicOut),
        "salt" => Any(c.Value, request.Salt),
        "septic" => Any(c.Value, request.Septic),
        _ => throw new InvalidOperationException("A condition nobody reads: " + c.Name),
    });

    private static bool Any(JsonElement list, string? value) => list.EnumerateArray().Any(e => e.ValueKind == JsonValueKind.Null
        ? value is null : e.GetString() == value);

    private static bool Any(JsonElement list, bool value) => list.EnumerateArray().Any(e => e.ValueKind == JsonValueKind.Null ? !value
        : e.GetBoolean() == value);
}
