using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>A name offered for what is typed.</summary>
/// <param name="Matched">The name of it that fits; empty where the taxon is offered under a name the catalogue does not list.</param>
public sealed record NameOffer(CatalogueTaxon Taxon, string Matched, NameKind Kind, bool AsWritten);

/// <summary>Names offered, and which of them Enter takes: null where somebody has to choose.</summary>
public sealed record NameOffers(IReadOnlyList<NameOffer> All, int? Meant)
{
    public static NameOffers None { get; } = new([], null);
}

/// <summary>The lines somebody has typed and not yet saved, with a way back for each step.</summary>
public sealed class EntrySheet(NameIndex names)
{
    private const int MostOffers = 6, MostGenera = 2, ShortestName = 3;
    private readonly Stack<IReadOnlyList<PlantingDraft>> before = new();

    public IReadOnlyList<PlantingDraft> Lines { get; private set; } = [];

    public bool CanUndo => before.Count > 0;

    /// <summary>The bed's area, of which a cover in % is a share; null while nobody has measured it.</summary>
    public double? BedSquareMetres { get; set; }

    /// <summary>Plants offered for what is typed, best first, then the genus and the name as written.</summary>
    public NameOffers Offer(string typed)
    {
        var name = EntryLine.Parse(typed, IsName).Name;
        if (name.Length < 2)
        {
            return NameOffers.None;
        }

        var offers = names.Suggest(name, MostOffers).Select(s => new NameOffer(s.Taxon, s.Matched, s.Kind, false)).ToList();
        if (names.Sole(name) is { } sole)
        {
            var at = offers.FindIndex(o => o.Taxon.ScientificName == sole.ScientificName);
            return at >= 0 ? new(offers, at) : new([new(sole, "", NameKind.Scientific, false), .. offers], 0);
        }

        var unlisted = RecordedName.StopsAboveSpecies(name) ? [RecordedName.Of(name, names)]
            : names.GeneraOf(name, MostGenera).Select(g => RecordedName.Of(g, names)).Concat(name.Length >= ShortestName
            && name.Any(char.IsLetter) && names.Genus(name) is null ? [RecordedName.Of(name, names)] : []).ToList();
        var stops = RecordedName.StopsAboveSpecies(name);
        offers = [.. offers, .. unlisted.Where(t => names.Resolve(t.ScientificName) is null || t.Rank != "species")
            .Select(t => new NameOffer(names.Resolve(t.ScientificName) is { } known && known.Rank == t.Rank ? known : t, "",
            NameKind.Scientific, true))];
        return new(offers, stops ? offers.Count - 1 : null);
    }

    private bool IsName(string words) => names.Suggest(words, MostOffers).SelectMany(s => new[] { s.Matched, s.Taxon.DisplayName })
        .Contains(words, StringComparer.OrdinalIgnoreCase);

    /// <summary>The line as it would be added: the chosen plant, else the one its name means beyond doubt.</summary>
    public PlantingDraft Draft(string typed, CatalogueTaxon? chosen, bool customary)
    {
        var line = EntryLine.Parse(typed, IsName);
        var taxon = chosen ?? names.Sole(line.Name) ?? (RecordedName.StopsAboveSpecies(line.Name) ? RecordedName.Of(line.Name, names)
            : null);
        return new PlantingDraft
        {
            Typed = line.Name,
            Taxon = taxon,
            AsWritten = taxon is not null && IsUnlisted(taxon),
            CoverSquareMetres = line.Cover is { } cover ? line.CoverInFeet ?? customary ? cover / Words.SquareFeetPerSquareMetre : cover
                : line.Percent is { } percent ? percent / 100 * BedSquareMetres : null,
            CoverPercent = line.Percent,
            Count = line.Count,
            GrowthStage = line.GrowthStage,
            Origin = line.Origin,
            Certainty = line.Certainty,
            Qualifier = line.Qualifier,
            Patch = line.Patch,
            Finding = line is { Finding: Finding.Growing, Cover: 0 } or { Finding: Finding.Growing, Percent: 0 }
                or { Finding: Finding.Growing, Cover: null, Percent: null, Count: 0 } ? Finding.Ended : line.Finding,
            Unclear = line.Unclear,
            Remarks = line.Remarks,
        };
    }

    /// <summary>A line as it can be typed again, with all it says.</summary>
    public static string Written(PlantingDraft line, Units units)
    {
        ArgumentNullException.ThrowIfNull(line);
        ArgumentNullException.ThrowIfNull(units);
        var name = line.Taxon is not { } taxon ? line.Typed : taxon.Rank == RecordedRank.Genus ? $"{taxon.ScientificName} sp."
            : taxon.ScientificName;
        string?[] parts =
        [
            name,
            line.Unclear.Length > 0 ? line.Unclear : line.CoverPercent is { } percent ? Figure(percent) + "%"
                : line.Finding == Finding.Growing && line.CoverSquareMetres is { } c ? Figure(units.Area(c)) : null,
            line.Finding == Finding.Growing && line.Count is { } n ? $"{n}x" : null,
            line.GrowthStage switch { null => null, 5 => "bud", 6 => "fl", 7 => "fr", 8 => "seed", 9 => "dormant", _ => "leaf" },
            line.Origin switch { Origin.Planted => "planted", Origin.SelfSown => "self", Origin.Relict => "relict", _ => null },
            line.Certainty switch { Certainty.Certain => "sure", Certainty.Probable => "prob", Certainty.Tentative => "tent", _ => null },
            line.Qualifier.Length > 0 ? line.Qualifier : null,
            line.Finding switch { Finding.Ended => "gone", Finding.Died => "dead", Finding.NotFound => "nf", _ => null },
            line.Patch.Length > 0 ? "#" + line.Patch.Replace(' ', '_') : null,
            line.Remarks.Length > 0 ? $"“{string.Concat(line.Remarks.Select(c => c is '“' or '”' or '"' ? '’' : c))}”" : null,
        ];
        return string.Join(' ', parts.OfType<string>());
    }

    public void Add(PlantingDraft draft) => Step([.. Lines, draft]);

    public void Replace(int at, PlantingDraft draft) => Step([.. Lines.Select((l, i) => i == at ? draft : l)]);

    public void Remove(int at) => Step([.. Lines.Where((_, i) => i != at)]);

    /// <summary>Adds a line up with an earlier one of the same plant; what the later says of the stage and of certainty holds.</summary>
    public void Join(int earlier, int later)
    {
        var (a, b) = (Lines[earlier], Lines[later]);
        var joined = a with
        {
            CoverSquareMetres = a.CoverDerived && b.CoverDerived ? null : Sum(a.Cover, b.Cover),
            CoverPercent = null,
            Count = a.Count is { } x && b.Count is { } y ? x + y : null,
            GrowthStage = b.GrowthStage ?? a.GrowthStage,
            Origin = b.Origin ?? a.Origin,
            Certainty = b.Certainty ?? a.Certainty,
            Qualifier = b.Qualifier.Length > 0 ? b.Qualifier : a.Qualifier,
        };
        Step([.. Lines.Select((l, i) => i == earlier ? joined : l).Where((_, i) => i != later)]);
    }

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
    public PlantingDraft Renew(KeptLine kept)
    {
        ArgumentNullException.ThrowIfNull(kept);
        var written = kept.AsWritten.Length > 0 ? RecordedName.Of(kept.AsWritten, names) : null;
        return new()
        {
            Typed = kept.Typed,
            Taxon = written ?? (kept.Name.Length == 0 ? null : names.Resolve(kept.Name)),
            AsWritten = written is not null && IsUnlisted(written),
            CoverSquareMetres = kept.Cover,
            CoverPercent = kept.Percent,
            Count = kept.Count,
            GrowthStage = kept.Stage,
            Origin = kept.Origin,
            Certainty = kept.Certainty,
            Qualifier = kept.Qualifier,
            Remarks = kept.Remarks,
            Patch = kept.Patch,
            Finding = kept.Finding,
            SameDay = kept.SameDay,
            Unclear = kept.Unclear,
        };
    }

    private bool IsUnlisted(CatalogueTaxon taxon) => names.Resolve(taxon.ScientificName) is not { } known || known.Rank != taxon.Rank;

    private static double? Sum(double? a, double? b) => a is null && b is null ? null : (a ?? 0) + (b ?? 0);

    private static string Figure(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    private void Step(IReadOnlyList<PlantingDraft> lines)
    {
        before.Push(Lines);
        Lines = lines;
    }
}

/// <summary>A line as the browser keeps it until it is saved: all of it, the taxon by name.</summary>
public sealed record KeptLine(string Typed, string Name, double? Cover, int? Count, int? Stage, Origin? Origin, Certainty? Certainty,
    string Qualifier)
{
    /// <summary>The name where the catalogue does not list it; else empty.</summary>
    public string AsWritten { get; init; } = "";
    public double? Percent { get; init; }
    public string Remarks { get; init; } = "";
    public string Patch { get; init; } = "";
    public Finding Finding { get; init; }
    public SameDay SameDay { get; init; }
    public string Unclear { get; init; } = "";

    public static KeptLine Of(PlantingDraft d)
    {
        ArgumentNullException.ThrowIfNull(d);
        return new(d.Typed, d.Taxon is null || d.AsWritten ? "" : d.Taxon.ScientificName, d.CoverSquareMetres, d.Count, d.GrowthStage,
            d.Origin, d.Certainty, d.Qualifier)
        {
            AsWritten = d is { AsWritten: true, Taxon: { } taxon } ? taxon.Rank == RecordedRank.Genus ? $"{taxon.ScientificName} sp."
                : taxon.ScientificName : "",
            Percent = d.CoverPercent,
            Remarks = d.Remarks,
            Patch = d.Patch,
            Finding = d.Finding,
            SameDay = d.SameDay,
            Unclear = d.Unclear,
        };
    }
}
