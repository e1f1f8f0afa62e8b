using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>The lines somebody has typed and not yet saved, with a way back for each step.</summary>
public sealed class EntrySheet(NameIndex names)
{
    private readonly Stack<IReadOnlyList<PlantingDraft>> before = new();

    public IReadOnlyList<PlantingDraft> Lines { get; private set; } = [];

    public bool CanUndo => before.Count > 0;

    /// <summary>Plants offered for what is typed, best first.</summary>
    public IReadOnlyList<NameSuggestion> Suggest(string typed)
    {
        var line = EntryLine.Parse(typed);
        return line.Name.Length < 2 ? [] : names.Suggest(line.Name, 6);
    }

    /// <summary>The line as it would be added: the chosen plant, else the name as an exact scientific name.</summary>
    public PlantingDraft Draft(string typed, CatalogueTaxon? chosen, bool customary)
    {
        var line = EntryLine.Parse(typed);
        var previous = Lines.Count > 0 ? Lines[^1] : null;
        return new PlantingDraft
        {
            Typed = line.Name,
            Taxon = chosen ?? names.Resolve(line.Name),
            CoverSquareMetres = line.Cover is { } cover ? line.CoverInFeet ?? customary ? cover / Words.SquareFeetPerSquareMetre : cover : null,
            Count = line.Count,
            GrowthStage = line.GrowthStage,
            Origin = line.Origin ?? previous?.Origin ?? Origin.Planted,
            Certainty = line.Certainty ?? Certainty.Certain,
            Qualifier = line.Qualifier,
        };
    }

    public void Add(PlantingDraft draft) => Step([.. Lines, draft]);

    public void Replace(int at, PlantingDraft draft) => Step([.. Lines.Select((l, i) => i == at ? draft : l)]);

    public void Remove(int at) => Step([.. Lines.Where((_, i) => i != at)]);

    public void Undo()
    {
        if (before.TryPop(out var lines))
        {
            Lines = lines;
        }
    }

    /// <summary>Puts back what a browser kept, or what an undone save held.</summary>
    public void Restore(IReadOnlyList<PlantingDraft> lines) => Lines = lines;

    /// <summary>Keeps only the lines that were not saved.</summary>
    public void Keep(IReadOnlyList<PlantingDraft> lines)
    {
        Lines = lines;
        before.Clear();
    }

    /// <summary>A kept draft, read again by name so that an old catalogue cannot come back with it.</summary>
    public PlantingDraft Renew(KeptLine kept) => new()
    {
        Typed = kept.Typed,
        Taxon = kept.Name.Length == 0 ? null : names.Resolve(kept.Name),
        CoverSquareMetres = kept.Cover,
        Count = kept.Count,
        GrowthStage = kept.Stage,
        Origin = kept.Origin,
        Certainty = kept.Certainty,
        Qualifier = kept.Qualifier,
    };

    private void Step(IReadOnlyList<PlantingDraft> lines)
    {
        before.Push(Lines);
        Lines = lines;
    }
}

/// <summary>A line as the browser keeps it until it is saved.</summary>
public sealed record KeptLine(string Typed, string Name, double? Cover, int? Count, int? Stage, Origin Origin, Certainty Certainty, string Qualifier)
{
    public static KeptLine Of(PlantingDraft d) => new(d.Typed, d.Taxon?.ScientificName ?? "", d.CoverSquareMetres, d.Count, d.GrowthStage, d.Origin, d.Certainty, d.Qualifier);
}
