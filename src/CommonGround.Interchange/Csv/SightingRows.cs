using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Csv;

/// <summary>sightings.csv and infestations.csv.</summary>
public static class SightingRows
{
    private const double LargestArea = 1_000_000;
    private const int LargestCount = 1_000_000;
    private const double LargestSeed = 100_000;

    private static readonly string[] Seldom = ["patch", "finding", "verified_by", "place_in_bed", "seed_g"];

    /// <summary>sightings.csv, ready to be read again; the columns that few groups need are written where a row needs one.</summary>
    public static string Write(IEnumerable<SightingRow> rows)
    {
        var all = rows as IReadOnlyCollection<SightingRow> ?? [.. rows];
        // That a planting ended is told by its cover of 0.
        var full = all.Any(r => r.Patch.Length > 0 || r.VerifiedBy.Length > 0 || r.PlaceInBed.Length > 0 || r.SeedGrams is not null
            || r.Finding is Finding.Died or Finding.NotFound);
        return CsvText.Write(full ? CsvKind.Sightings.Columns : [.. CsvKind.Sightings.Columns.Except(Seldom)], all.Select(r => (string[])
        [
            CsvText.Guard(r.Yard), CsvText.Guard(r.Bed), CsvText.Guard(r.Name.ToString()), CsvText.Day(r.ObservedOn),
                CsvText.Number(r.CoverSquareMetres),
            CsvText.Number(r.Count), Words.Origin.Write(r.Origin), Words.Certainty.Write(r.Certainty), CsvText.Number(r.GrowthStage),
            CsvText.Guard(r.Observer), CsvText.Guard(r.Remarks),
            .. full ? [CsvText.Guard(r.Patch), Words.Finding.Write(r.Finding), CsvText.Guard(r.VerifiedBy), CsvText.Guard(r.PlaceInBed),
                CsvText.Number(r.SeedGrams)] : Array.Empty<string>(),
        ]));
    }

    /// <summary>infestations.csv with every column, ready to be read again.</summary>
    public static string Write(IEnumerable<InfestationRow> rows) =>
        CsvText.Write(["yard", "block", "scientific_name", "observed_on", "area_m2", "cover_percent", "growth_stage", "remarks"],
            rows.Select(r => (string[])
        [
            CsvText.Guard(r.Yard), CsvText.Guard(r.Block), CsvText.Guard(r.Name.ToString()), CsvText.Day(r.ObservedOn),
                CsvText.Number(r.AreaSquareMetres),
            CsvText.Number(r.CoverPercent), CsvText.Number(r.GrowthStage), CsvText.Guard(r.Remarks),
        ]));

    internal static List<SightingRow> Read(CsvTable table, RowCells cells, List<ImportError> notices)
    {
        var rows = new List<SightingRow>();
        var untold = PlaceRows.Untold(CsvKind.Sightings, cells);
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var (yard, bed, name) = (cells.Code("yard"), cells.Code("bed"), Name(cells));
            var row = new SightingRow(record.Line, yard, bed, name, cells.Day("observed_on"),
                cells.OptionalNumber("cover_m2", 0, LargestArea, "of square metres, 0 or more"),
                    cells.OptionalWhole("count", 0, LargestCount, "of plants, 0 or more"),
                cells.OptionalWord("origin", Words.Origin) ?? Origin.Unknown, SureOf(table, cells, name, notices), GrowthStage(cells),
                cells.Text("observer"), cells.Text("remarks"))
            {
                Patch = cells.Text("patch"),
                Finding = cells.OptionalWord("finding", Words.Finding) ?? Finding.Growing,
                VerifiedBy = cells.Text("verified_by"),
                PlaceInBed = cells.Text("place_in_bed"),
                SeedGrams = cells.OptionalNumber("seed_g", 0, LargestSeed, "of grams, above 0"),
                Untold = untold,
            };
            if (row.SeedGrams == 0) row = row with { SeedGrams = null };
            // Of a plant that is gone or was not found there is no cover to give.
            if (row.Finding != Finding.Growing && !cells.Has("cover_m2") && !cells.Has("count")) row = row with { CoverSquareMetres = 0 };
            if (row is { Finding: Finding.Growing, CoverSquareMetres: 0 } or
                {
                    Finding: Finding.Growing, CoverSquareMetres: null,
                    Count: 0
                })
                row = row with { Finding = Finding.Ended };
            if (cells.Fine && row.Finding != Finding.Growing && (row.CoverSquareMetres > 0 || row.Count > 0))
                cells.Refuse("finding", "It was not growing, yet a cover or a count is given.",
                    "Leave cover and count blank, or write growing.");
            if (cells.Fine && row.Count == 0 && row.CoverSquareMetres > 0)
                cells.Refuse("count", $"No plant is counted, yet {CsvText.Number(row.CoverSquareMetres)} m² are covered.",
                    "Leave the count blank where nobody counted, or write 0 in cover_m2 too if the planting has ended.");
            if (!cells.Has("cover_m2") && !cells.Has("count") && row.Finding == Finding.Growing)
                cells.Refuse("cover_m2", "Neither cover nor count is given.",
                    "Write the cover in square metres or the number of plants; 0 ends the planting.");
            if (cells.Fine) rows.Add(row);
        }
        return rows;
    }

    internal static List<InfestationRow> ReadInfestations(CsvTable table, RowCells cells)
    {
        var rows = new List<InfestationRow>();
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var row = new InfestationRow(record.Line, cells.OptionalCode("yard"), cells.OptionalCode("block"), Name(cells),
                cells.Day("observed_on"),
                cells.Number("area_m2", 0, LargestArea, "of square metres, 0 or more; 0 closes the infestation"),
                cells.OptionalNumber("cover_percent", 0, 100, "from 0 to 100"), GrowthStage(cells), cells.Text("remarks"));
            if (!cells.Has("yard") && !cells.Has("block"))
                cells.Refuse("yard", "The row names neither yard nor block.",
                    "Write the yard's code, or the block where no yard is known.");
            if (cells.Fine && row.AreaSquareMetres > 0 && row.CoverPercent is null)
                cells.Refuse("cover_percent", "The cell is blank.", "Write how much of the area it covers, from 0 to 100.");
            if (cells.Fine) rows.Add(row);
        }
        return rows;
    }

    private static TaxonName Name(RowCells cells)
    {
        var name = TaxonName.Parse(cells.Code("scientific_name"));
        if (name.Name.Length == 0 && cells.Has("scientific_name"))
            cells.Refuse("scientific_name", "Only the doubt is given, no name.", "Write the name after cf. or aff.");
        return name;
    }

    private static int? GrowthStage(RowCells cells) => cells.OptionalWhole("growth_stage", 0, 9, "from 0 to 9, a BBCH principal stage");

    /// <summary>Nobody is certain of a cf.: such a row is tentative unless it says probable.</summary>
    private static Certainty SureOf(CsvTable table, RowCells cells, TaxonName name, List<ImportError> notices)
    {
        var written = cells.OptionalWord("certainty", Words.Certainty);
        if (name.Qualifier.Length == 0) return written ?? Certainty.Probable;
        if (written is Certainty.Certain)
        {
            notices.Add(new ImportError(table.Name, cells.Line, "certainty",
                cells.Raw("certainty"), $"A name with {name.Qualifier} cannot be certain; it is kept as tentative.",
                $"Take {name.Qualifier} out of the name if the plant is certain."));
            return Certainty.Tentative;
        }
        return written ?? Certainty.Tentative;
    }
}
