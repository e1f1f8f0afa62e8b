using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>One row of a walk sheet as typed from paper.</summary>
public sealed class SheetRow
{
    /// <summary>Which row of the list it is, so that a list that changed meanwhile moves nothing to another plant.</summary>
    public string Key { get; set => field = value ?? ""; } = "";

    /// <summary>1 growing, 0 not found, 2 dead, 3 taken out; blank where nobody looked.</summary>
    public string Here { get; set => field = value ?? ""; } = "";

    /// <summary>BBCH principal stage.</summary>
    public string Stage { get; set => field = value ?? ""; } = "";

    /// <summary>In the reader's unit; blank for as it was.</summary>
    public string Cover { get; set => field = value ?? ""; } = "";

    /// <summary>1 certain, 2 probable, 3 tentative; blank for as it was.</summary>
    public string Sure { get; set => field = value ?? ""; } = "";
    public string Remark { get; set => field = value ?? ""; } = "";

    /// <summary>In an empty row the plant's name.</summary>
    public string Name { get; set => field = value ?? ""; } = "";

    public bool IsBlank => new[] { Here, Stage, Cover, Sure, Remark, Name }.All(string.IsNullOrWhiteSpace);
}

/// <summary>A walk sheet as typed from paper: the rows of every bed, and the empty ones below each, in the order of the paper.</summary>
public sealed class SheetDraft
{
    public string Day { get; set => field = value ?? ""; } = "";
    public string Observer { get; set => field = value ?? ""; } = "";
    public List<SheetRow> Rows { get; set => field = value ?? []; } = [];

    /// <summary>What each row of the paper is about: its key, the bed and the planting, which is null for an empty row.</summary>
    public static IReadOnlyList<(string Key, BedView Bed, PlantingLine? Planting)> Order(IReadOnlyList<BedView> beds)
    {
        ArgumentNullException.ThrowIfNull(beds);
        return [.. beds.SelectMany(b => WalkSheets.Rows(b).Select(p => ($"{b.Id}/{p.Taxon.ScientificName}/{p.Patch}", b, (PlantingLine?)p))
            .Concat(Enumerable.Range(0, Reports.WalkSheets.WalkSheet.BlankRows).Select(i => ($"{b.Id}/new/{i}", b, (PlantingLine?)null))))];
    }

    /// <summary>The lines to save, by bed, or what is wrong, by field "Day" or "Rows[4]"; pure.</summary>
    public (DateOnly Day, IReadOnlyList<(BedView Bed, IReadOnlyList<PlantingDraft> Lines)> Beds,
        IReadOnlyList<Problem> Problems) Read(IReadOnlyList<BedView> beds, NameIndex names, Units units, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(names);
        ArgumentNullException.ThrowIfNull(units);
        var problems = new List<Problem>();
        if (!DateOnly.TryParseExact(Day.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            || day > today || day.Year < PlantingDraft.FirstYear)
        {
            problems.Add(new(nameof(Day), $"Give the day of the walk; today is {Words.Date(today)}."));
        }

        var lines = new List<(BedView Bed, PlantingDraft Line)>();
        var order = Order(beds);
        var places = order.Index().ToDictionary(r => r.Item.Key, r => r.Index, StringComparer.Ordinal);
        foreach (var row in Rows.Where(r => !r.IsBlank))
        {
            if (!places.TryGetValue(row.Key, out var at))
            {
                problems.Add(
                    new("", $"The list of this yard changed meanwhile: {(row.Key.Split('/') is [_, var gone, ..] ? gone : "a row")} "
                        + $"stands in it no more. Look at the list and type that row in again."));
                continue;
            }

            var (_, bed, planting) = order[at];
            var (line, wrong) = Line(row, planting, names, units);
            if (wrong is null)
            {
                lines.Add((bed, line!));
            }
            else
            {
                problems.Add(new($"Rows[{at}]", $"Row {at + 1}: {wrong}"));
            }
        }

        if (problems.Count == 0 && lines.Count == 0)
        {
            problems.Add(new("", "No row is filled in yet."));
        }

        return (day, [.. beds.Select(b => (b, (IReadOnlyList<PlantingDraft>)[.. lines.Where(l => l.Bed.Id == b.Id).Select(l => l.Line)]))
            .Where(b => b.Item2.Count > 0)], problems);
    }

    private static (PlantingDraft? Line, string? Wrong) Line(SheetRow row, PlantingLine? planting, NameIndex names, Units units)
    {
        var (finding, found) = row.Here.Trim() switch
        {
            "" or "1" => (Finding.Growing, true),
            "0" => (Finding.NotFound, true),
            "2" => (Finding.Died, true),
            "3" => (Finding.Ended, true),
            _ => (Finding.Growing, false)
        };
        if (!found)
        {
            return (null, $"“{row.Here}” under Here is none of 1 growing, 0 not found, 2 dead, 3 taken out.");
        }

        int? stage = row.Stage.Trim() switch { "" => null, [var digit] when char.IsAsciiDigit(digit) => digit - '0', _ => -1 };
        if (stage < 0)
        {
            return (null, $"“{row.Stage}” is no stage: 1–4 leaves, 5 in bud, 6 in flower, 7 fruit forming, 8 ripe seed, 9 dying back.");
        }

        var (sure, known) = row.Sure.Trim() switch
        {
            "" => ((Certainty?)null, true),
            "1" => (Certainty.Certain, true),
            "2" => (Certainty.Probable, true),
            "3" => (Certainty.Tentative, true),
            _ => (null, false)
        };
        if (!known)
        {
            return (null, $"“{row.Sure}” under Sure is none of 1 certain, 2 probable, 3 tentative.");
        }

        double? cover = null;
        if (row.Cover.Trim() is { Length: > 0 } typed)
        {
            if (!double.TryParse(typed.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var area))
            {
                return (null, $"“{row.Cover}” is no cover: write it in {units.AreaUnit}, as 1.5, or leave it blank where it did not "
                    + $"change.");
            }

            cover = area / units.Area(1);
        }

        var taxon = planting?.Taxon ?? names.Sole(row.Name.Trim());
        if (taxon is null)
        {
            return (null, row.Name.Trim().Length == 0 ? "name the plant in this empty row."
                : $"the catalogue has no single plant called "
                + $"“{row.Name}”{(names.Suggest(row.Name, 3) is { Count: > 0 } near ? $": is it {string.Join(" or ", near.Select(n => n.Taxon.DisplayName).Distinct())}?" : ".")} Write the name in full, or record it on the yard’s page Record.");
        }

        return (new PlantingDraft
        {
            Typed = taxon.ScientificName,
            Taxon = taxon,
            Patch = planting?.Patch ?? "",
            Finding = finding == Finding.Growing && cover == 0 ? Finding.Ended : finding,
            CoverSquareMetres = cover,
            GrowthStage = finding == Finding.Growing ? stage : null,
            Certainty = sure,
            Remarks = row.Remark.Trim(),
        }, null);
    }
}
