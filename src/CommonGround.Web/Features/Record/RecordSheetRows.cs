using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Yards;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>Saves a walk sheet typed from paper, bed by bed, through the one write of recordings. A sheet is looked over as a whole before
/// its first bed is saved.</summary>
public sealed class RecordSheetRows(RecordPlantings record, YardQueries yards, LiveCommunity live, GroupClock clock)
{
    public async Task<IReadOnlyList<Problem>> SaveAsync(string code, IReadOnlyList<BedView> beds, SheetDraft draft, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(by);
        var yard = await yards.GetAsync(code, by, cancel);
        var (day, lines, problems) = draft.Read(beds, (await live.LoadedAsync(cancel)).Names, by.Units, clock.Today);
        if (yard is null || problems.Count > 0)
        {
            return yard is null ? [new("", "This yard is no longer in the record, or not yours.")] : problems;
        }

        // What a write would refuse is said before anything is stored.
        problems = [.. lines.SelectMany(b => b.Lines.SelectMany(l => l.Check(day, clock.Today, b.Bed.AreaSquareMetres,
            yard.Facts.AreaSquareMetres, by.Units, Known(b.Bed, l)?.CoverSquareMetres)
            .Select(p => new Problem("", $"{b.Bed.Name}, {l.Taxon!.DisplayName}: {p.Message}"))))];
        if (problems.Count > 0)
        {
            return problems;
        }

        var stored = new List<string>();
        foreach (var (bed, rows) in lines)
        {
            // The same day typed twice, as after a save that broke off, puts the row in its place.
            var result = await record.SaveAsync(new RecordSheet(yard.Facts.Id, bed.Id, bed.Version, day, draft.Observer.Trim(),
                [.. rows.Select(l => l with { SameDay = SameDay.InPlace })]), by, cancel);
            if (result.Problems.Count > 0)
            {
                var before = stored.Count > 0 ? $" Stored already: {Words.List(stored)}; saving again puts the same there." : "";
                return [.. result.Problems.Select(p => new Problem("", $"{p.Message} Bed: {bed.Name}.{before}"))];
            }

            stored.Add(bed.Name);
        }

        return [];
    }

    private static PlantingLine? Known(BedView bed, PlantingDraft line) =>
        WalkSheets.Rows(bed).FirstOrDefault(p => p.Taxon.ScientificName == line.Taxon!.ScientificName && p.Patch == line.Patch);
}
