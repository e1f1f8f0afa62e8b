using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using CommonGround.Ecology.Invasives;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Commands;

/// <summary><c>measures --by yard|block|street|neighbourhood [--as-of DATE] [--format json|csv] [--out FILE]</c></summary>
internal static class MeasuresCommand
{
    public static Command Create()
    {
        var by = new Option<string>("--by") { Description = "yard, block, street or neighbourhood", Required = true };
        by.AcceptOnlyFromAmong("yard", "block", "street", "neighbourhood");
        var asOf = new Option<string?>("--as-of") { Description = "Day, as 2026-08-19; today where it is left out" };
        var format = new Option<string>("--format") { Description = "json or csv", DefaultValueFactory = _ => "json" };
        format.AcceptOnlyFromAmong("json", "csv");
        var output = new Option<FileInfo?>("--out") { Description = "File to write; standard output where it is left out" };
        var command = new Command("measures", "Every measure of every site, in full precision") { by, asOf, format, output };
        command.SetAction(async (parsed, cancel) =>
        {
            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            var day = services.GetRequiredService<GroupClock>().CalendarToday;
            if (parsed.GetValue(asOf) is { } written && !DateOnly.TryParseExact(written, "yyyy-MM-dd", CultureInfo.InvariantCulture,
                DateTimeStyles.None, out day))
            {
                return CommandLine.Refuse($"--as-of {written} is not a day: write it as 2026-08-19.");
            }

            var clock = services.GetRequiredService<GroupClock>();
            if (day > clock.CalendarToday && day > clock.Today)
            {
                return CommandLine.Refuse($"--as-of {day:yyyy-MM-dd} is in the future; today is {clock.CalendarToday:yyyy-MM-dd}. Nothing "
                    + $"is known of that day yet: name today or an earlier one.");
            }

            var community = await services.GetRequiredService<CommunityQueries>().LoadAsync(day, cancel);
            var sites = await SitesAsync(services, community, parsed.GetValue(by)!, cancel);
            var basis = MeasuresBasis.Of(services.GetRequiredService<CurrentNeighbourhood>(), community.Dates);
            var text = parsed.GetValue(format) == "csv" ? MeasuresText.Csv(sites, day, basis) : MeasuresText.Json(sites, day, basis);
            if (parsed.GetValue(output) is { } file)
            {
                await File.WriteAllTextAsync(file.FullName, text, new UTF8Encoding(false), cancel);
            }
            else
            {
                await Console.Out.WriteAsync(text);
            }

            return 0;
        });
        return command;
    }

    private static async Task<IReadOnlyList<MeasuredSite>> SitesAsync(IServiceProvider services, LoadedCommunity community, string by,
        CancellationToken cancel)
    {
        var (matrix, season, convention) = (community.Matrix, community.Rules.Season, community.Rules.Pressure);
        switch (by)
        {
            case "yard":
                await using (var db = await services.GetRequiredService<NeighbourhoodDatabase>().CreateDbContextAsync(cancel))
                {
                    var codes = await db.Yards.ToDictionaryAsync(y => y.Id, y => y.Code, cancel);
                    return Named(by, CommunityMeasures.OfYards(matrix, season, convention), i => codes[matrix.Yards[i].YardId]);
                }

            case "block":
                return Named(by, CommunityMeasures.OfBlocks(matrix, season, convention),
                    i => $"{matrix.Streets[matrix.Blocks[i].Street].Name}, {matrix.Blocks[i].Name}");
            case "street":
                return Named(by, CommunityMeasures.OfStreets(matrix, season, convention), i => matrix.Streets[i].Name);
            default:
                return [new(by, services.GetRequiredService<CurrentNeighbourhood>().Name,
                    CommunityMeasures.OfNeighbourhood(matrix, season, convention))];
        }
    }

    private static MeasuredSite[] Named(string by, IReadOnlyList<SiteMeasures> measures, Func<int, string> name) =>
        [.. measures.Select((m, i) => new MeasuredSite(by, name(i), m)).OrderBy(s => s.Name, StringComparer.Ordinal)];
}

/// <summary>What the figures of a file rest on: the table of C and nativity, and the dates of bloom in one sentence.</summary>
internal sealed record MeasuresBasis(string Table, string BloomDates)
{
    public static MeasuresBasis Of(CurrentNeighbourhood neighbourhood, BloomDates dates) =>
        new(Features.Regions.RegionWords.Table(neighbourhood), Features.Regions.BloomWords.Sentence(neighbourhood, dates));
}

internal sealed record MeasuredSite(string By, string Name, SiteMeasures Measures);

/// <summary>The contract's fields, one by one; undefined is null in JSON and an empty cell in CSV.</summary>
internal static class MeasuresText
{
    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping
    };

    public static string Json(IEnumerable<MeasuredSite> sites, DateOnly asOf, MeasuresBasis basis) =>
        JsonSerializer.Serialize(sites.Select(s => Fields(s, asOf, basis)), Options) + "\n";

    public static string Csv(IReadOnlyList<MeasuredSite> sites, DateOnly asOf, MeasuresBasis basis)
    {
        var empty = new MeasuredSite("", "", SiteMeasures.Of(new SiteCommunity(0, []), [], Season.Default, null));
        string[] header = [.. Flat(Fields(empty, asOf, basis)).Select(f => f.Key)];
        var rows = sites.Select(s => (string[])[.. Flat(Fields(s, asOf, basis)).Select(f => f.Value switch
        {
            null => "",
            double d => d.ToString("R", CultureInfo.InvariantCulture),
            string text => Interchange.Csv.CsvText.Guard(text),
            var other => Convert.ToString(other, CultureInfo.InvariantCulture) ?? "",
        })]);
        return Interchange.Csv.CsvText.Write(header, rows);
    }

    private static Dictionary<string, object?> Fields(MeasuredSite site, DateOnly asOf, MeasuresBasis basis)
    {
        var m = site.Measures;
        return new(StringComparer.Ordinal)
        {
            ["by"] = site.By,
            ["name"] = site.Name,
            ["asOf"] = asOf.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            ["yards"] = m.Yards,
            ["richness"] = m.Richness,
            ["nativeRichness"] = m.NativeRichness,
            ["introducedRichness"] = m.IntroducedRichness,
            ["shannon"] = m.Shannon,
            ["simpson"] = m.Simpson,
            ["inverseSimpson"] = m.InverseSimpson,
            ["evenness"] = m.Evenness,
            ["hill0"] = m.Hill0,
            ["hill1"] = m.Hill1,
            ["hill2"] = m.Hill2,
            ["chao2"] = m.Chao2,
            ["chao2Se"] = m.Chao2StandardError,
            ["meanC"] = m.MeanC,
            ["nativeMeanC"] = m.NativeMeanC,
            ["fqi"] = m.Fqi,
            ["nativeFqi"] = m.NativeFqi,
            ["adjustedFqi"] = m.AdjustedFqi,
            ["coverWeightedMeanC"] = m.CoverWeightedMeanC,
            ["withoutC"] = m.WithoutC,
            ["onOldSightings"] = m.OnOldSightings,
            ["bloom"] = m.Bloom.HalfMonths.Select(h => new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                ["n"] = h.N,
                ["areaM2"] = h.AreaSquareMetres,
                ["support"] = h.Support
            }).ToList(),
            ["coveredShare"] = m.CoveredShare,
            ["gaps"] = m.Gaps.Select(g => new Dictionary<string, object?>(StringComparer.Ordinal) { ["from"] = g.From, ["to"] = g.To })
                .ToList(),
            ["lateSeasonCoveredShare"] = m.LateSeasonCoveredShare,
            ["invasivePressureM2"] = m.InvasivePressureSquareMetres,
            ["cTable"] = basis.Table,
            ["datesOfBloom"] = basis.BloomDates,
        };
    }

    /// <summary>One cell a value: bloom becomes n0, areaM2_0, support0 … and gaps "6-8|19-19".</summary>
    private static IEnumerable<KeyValuePair<string, object?>> Flat(Dictionary<string, object?> fields)
    {
        foreach (var field in fields)
        {
            if (field.Value is not List<Dictionary<string, object?>> list)
            {
                yield return field;
            }
            else if (field.Key == "gaps")
            {
                yield return new("gaps", string.Join('|', list.Select(g => $"{g["from"]}-{g["to"]}")));
            }
            else
            {
                foreach (var (half, values) in list.Index())
                {
                    foreach (var value in values)
                    {
                        yield return new($"bloom{half}_{value.Key}", value.Value);
                    }
                }
            }
        }
    }
}
