using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using CommonGround.Planning.Conversion;
using CommonGround.Web.Features.Conversion;

namespace CommonGround.Web.Commands;

/// <summary>What is asked for, from a file: the object that the plan command prints under <c>request</c>.</summary>
internal static class PlanRequestFile
{
    private static readonly JsonSerializerOptions Strict = new(PlanCommand.Json)
    {
        UnmappedMemberHandling =
        JsonUnmappedMemberHandling.Disallow
    };

    /// <summary>The yard's own request with the keys of the file put over it.</summary>
    /// <exception cref="JsonException">The file is no such object; the message says where.</exception>
    /// <exception cref="PlanRefusedException">Neither file nor record says what the ground is like.</exception>
    public static ConversionRequest Read(FileInfo file, PlanGround ground)
    {
        var typed = JsonNode.Parse(File.ReadAllText(file.FullName), documentOptions: new()
        {
            CommentHandling = JsonCommentHandling.Skip,
            AllowTrailingCommas = true
        });
        if (typed is not JsonObject asked) throw new JsonException("It must be an object in braces: {\"budget\": 150}.");
        var draft = PlanDraft.For(ground.Facts);
        var missing = draft.Missing().Where(m => !asked.ContainsKey(JsonNamingPolicy.CamelCase.ConvertName(m.Field))).ToList();
        if (missing.Count > 0) throw new PlanRefusedException(string.Join(" ", missing.Select(m => m.Message)));
        // What the record leaves open is in the file, or it was refused above.
        (draft.Light, draft.Moisture, draft.SoilGroup) = (draft.Light ?? default, draft.Moisture ?? default, draft.SoilGroup ?? default);
        var whole = JsonSerializer.SerializeToNode(draft.ToRequest(ground.Figures.Season), PlanCommand.Json)!.AsObject();
        whole.Remove("squareMetres");
        if (asked.Select(a => a.Key).FirstOrDefault(k => !whole.ContainsKey(k) && k != "squareMetres") is { } unknown)
        {
            throw new JsonException($"A request has no key {unknown}. It knows: {string.Join(", ", whole.Select(w => w.Key))}.");
        }

        foreach (var (key, value) in asked)
        {
            // The sum of the areas is printed for the reader; the areas themselves decide.
            if (key != "squareMetres") whole[key] = value?.DeepClone();
        }

        return whole.Deserialize<ConversionRequest>(Strict) ?? throw new JsonException("It is empty.");
    }
}
