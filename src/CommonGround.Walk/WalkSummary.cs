using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;

namespace CommonGround.Walk;

/// <summary>One line of what a walk found.</summary>
public sealed record SummaryLine(string Name, string Words, WalkNote Note);

/// <summary>A part of it under its heading.</summary>
public sealed record SummaryPart(string Heading, IReadOnlyList<SummaryLine> Lines);

/// <summary>What a walk found against the last list and the usual dates; pure.</summary>
public static class WalkSummary
{
    public static IReadOnlyList<SummaryPart> Of(IReadOnlyList<WalkItem> items, IReadOnlyList<WalkNote> notes, Func<string,
        WalkTaxon?> taxon, DateOnly today, bool customary)
    {
        ArgumentNullException.ThrowIfNull(items);
        ArgumentNullException.ThrowIfNull(notes);
        ArgumentNullException.ThrowIfNull(taxon);
        var known = items.ToDictionary(i => i.Key, StringComparer.Ordinal);
        var looks = notes.Where(n => n.Look is not null).Select(n =>
            (Note: n, Said: n.Look!, Item: known.GetValueOrDefault($"{n.BedId}|{n.Taxon}|{n.Patch}"), Name: Name(n, taxon))).ToList();
        var half = HalfMonth.Of(today);
        SummaryPart[] parts =
        [
            new("New", [.. looks.Where(l => l.Item is null).Select(l => new SummaryLine(l.Name, WalkWords.Of(l.Said, customary), l.Note))]),
            new("Gone or not found", [.. looks.Where(l => l.Item is not null
                && l.Said.Finding is Finding.Ended or Finding.Died or Finding.NotFound)
                .Select(l =>
                    new SummaryLine(l.Name, $"{WalkWords.Of(l.Said, customary)}, was {Known(l.Item!.Plant, customary)}", l.Note))]),
            new("Moved on", [.. looks.Where(l => l.Item is not null && l.Said.GrowthStage is not null
                && StageThisYear(l.Item.Plant, today) is { } before && before != l.Said.GrowthStage)
                .Select(l =>
                    new SummaryLine(l.Name,
                    $"{WalkWords.Stage(l.Said.GrowthStage!.Value)}, was {WalkWords.Stage(l.Item!.Plant.GrowthStage!.Value)}", l.Note))]),
            new("Earlier or later than usual", [.. looks.Select(l =>
                (l, Words: Timing(l.Said, l.Item?.Plant.Bloom ?? taxon(l.Note.Taxon)?.Bloom, half, today.Year)))
                .Where(t => t.Words is not null)
                .Select(t => new SummaryLine(t.l.Name, t.Words!, t.l.Note))]),
            new("Look at again", [.. looks.Where(l => l.Said.Certainty is Certainty.Tentative or Certainty.Probable
                || (l.Said.Certainty is null && l.Item is { Plant.Certainty: not Certainty.Certain }))
                .Select(l => new SummaryLine(l.Name, "the name is not sure", l.Note))]),
            new("Come back to", [.. notes.Where(n => n.Unwanted is not null)
                .Select(n => new SummaryLine(Name(n, taxon), Control(n, taxon(n.Taxon), today, customary), n))]),
            new("Animals", [.. notes.Where(n => n.Wildlife is not null)
                .Select(n => new SummaryLine(Animal(n.Wildlife!),
                $"{WalkWords.Of(n.Wildlife!.Count)}{(n.Taxon.Length > 0 ? $", on {Name(n, taxon)}" : "")}", n))]),
            new("Photos", [.. notes.Where(n => n.Photo is not null)
                .Select(n => new SummaryLine(n.Taxon.Length > 0 ? Name(n, taxon) : "the yard", WalkWords.Date(n.Photo!.TakenOn), n))]),
        ];
        return [.. parts.Where(p => p.Lines.Count > 0)];
    }

    /// <summary>In flower outside its usual dates, or finished before they begin; null where it keeps to them or nobody knows
    /// them.</summary>
    internal static string? Timing(LookSaid said, BloomWindow? bloom, int half, int year)
    {
        if (bloom is not { } window || window.Start > window.End || said.Finding is not (null or Finding.Growing))
        {
            return null;
        }

        var usual = $"usually in flower {WalkWords.From(window.Start, year)} to {WalkWords.Until(window.End, year)}";
        return said.GrowthStage switch
        {
            GrowthStage.Flowering when half < window.Start => $"in flower earlier: {usual}",
            GrowthStage.Flowering when half > window.End => $"in flower later: {usual}",
            7 or 8 when half < window.End => $"finished earlier: {usual}",
            < GrowthStage.Flowering when half > window.Start && half <= window.End => $"not in flower yet: {usual}",
            _ => null,
        };
    }

    private static string Control(WalkNote note, WalkTaxon? taxon, DateOnly today, bool customary)
    {
        var area = WalkWords.Area(note.Unwanted!.AreaSquareMetres, customary);
        var amount = note.Unwanted.GrowthStage is { } stage ? $"{area}, {WalkWords.Stage(stage)}" : area;
        if (taxon is not { ControlStart: { } start, ControlEnd: { } end })
        {
            return amount;
        }

        var window = new BloomWindow(start, end);
        return amount + (window.Contains(HalfMonth.Of(today)) ? $". Usually treated now, until {WalkWords.Until(end, today.Year)}"
            : $". Usually treated from {WalkWords.From(start, today.Year)} to {WalkWords.Until(end, today.Year)}");
    }

    private static string Known(WalkPlant plant, bool customary) =>
        $"{WalkWords.Area(plant.CoverSquareMetres, customary)} on {WalkWords.Date(plant.SeenOn)}";

    /// <summary>The stage of the last look, where that was this year: stages of another year tell nothing.</summary>
    private static int? StageThisYear(WalkPlant plant, DateOnly today) => plant.SeenOn.Year == today.Year ? plant.GrowthStage : null;

    private static string Name(WalkNote note, Func<string, WalkTaxon?> taxon) => taxon(note.Taxon) is { CommonNames: [var common, ..] }
        ? common : note.Taxon;

    private static string Animal(WildlifeSaid said) => said.Name.Length > 0 ? $"{said.Name} ({WalkWords.Of(said.Kind).ToLowerInvariant()})"
        : WalkWords.Of(said.Kind);
}
