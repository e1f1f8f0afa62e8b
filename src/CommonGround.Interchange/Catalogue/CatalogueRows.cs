using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;

namespace CommonGround.Interchange.Catalogue;

/// <summary>Reads the rows of plants.csv.</summary>
internal static class CatalogueRows
{
    private const double TallestPlant = 120, MostSeeds = 1_000_000;
    private const string SourcePrefix = "source_";

    public static List<CatalogueTaxon> Read(CsvTable table, RowCells cells)
    {
        var taxa = new List<CatalogueTaxon>();
        var names = new CatalogueNames();
        var sources = table.Header.Where(c => c.StartsWith(SourcePrefix, StringComparison.Ordinal)).ToList();
        foreach (var record in table.Records)
        {
            cells.Open(record);
            var taxon = ReadTaxon(cells, sources);
            names.Check(taxon, cells);
            CatalogueRules.Check(taxon, cells);
            CatalogueSources.Check(taxon, cells, sources);
            if (cells.Fine) taxa.Add(taxon);
        }
        return taxa;
    }

    private static CatalogueTaxon ReadTaxon(RowCells cells, List<string> sources) => new()
    {
        ScientificName = cells.Code("scientific_name"),
        Authority = cells.Text("authority"),
        Rank = cells.Has("rank") ? cells.Text("rank") : "species",
        Synonyms = List(cells, "synonyms"),
        CommonNames = List(cells, "common_names"),
        Family = cells.Text("family"),
        Nativity = Word(cells, "nativity", Words.Nativity),
        C = cells.OptionalNumber("c_value", 0, 10, "from 0 to 10"),
        CRegion = cells.Text("c_region"),
        NativitySecond = cells.OptionalWord("nativity_second", Words.Nativity) ?? Nativity.Unknown,
        CSecond = cells.OptionalNumber("c_second", 0, 10, "from 0 to 10"),
        RegionSecond = cells.Text("region_second"),
        LifeForm = Word(cells, "life_form", Words.LifeForm),
        Duration = cells.Text("duration"),
        HeightMinMetres = cells.OptionalNumber("height_min_m", 0, TallestPlant, "of metres from 0 to 120"),
        HeightMaxMetres = cells.OptionalNumber("height_max_m", 0, TallestPlant, "of metres from 0 to 120"),
        HeightSecondMetres = AboveZero(cells, "height_second_m", TallestPlant),
        Light = WordList(cells, "light", Words.Light),
        Moisture = WordList(cells, "moisture", Words.Moisture),
        WetlandIndicator = cells.OptionalWord("wetland_indicator", Words.WetlandIndicator) ?? WetlandIndicator.Unknown,
        Communities = WordList(cells, "community", Words.PlantCommunity),
        Bloom = Window(cells, "bloom_start", "bloom_end"),
        BloomPlace = cells.Text("bloom_place"),
        BloomSecond = Window(cells, "bloom_second_start", "bloom_second_end"),
        FlowerColour = cells.Text("flower_colour"),
        PollinatorValue = cells.OptionalNumber("pollinator_value", 0, 1, "from 0 to 1"),
        PollinatorLow = cells.OptionalNumber("pollinator_low", 0, 1, "from 0 to 1"),
        PollinatorHigh = cells.OptionalNumber("pollinator_high", 0, 1, "from 0 to 1"),
        PollinatorGroups = List(cells, "pollinator_groups"),
        CaterpillarHosts = cells.Text("caterpillar_hosts"),
        SeedForBirds = cells.Text("seed_for_birds"),
        SeedsPerGram = AboveZero(cells, "seeds_per_gram", MostSeeds),
        SpacingMetres = AboveZero(cells, "spacing_m", 20),
        Toxicity = cells.Text("toxicity"),
        ToxicityClasses = WordList(cells, "toxicity_class", Words.ToxicityClass),
        Caution = cells.Text("caution"),
        LookAlikes = List(cells, "look_alikes"),
        ImpactRank = cells.OptionalWord("impact_rank", Words.ImpactRank) ?? ImpactRank.Unranked,
        DispersalMetres = AboveZero(cells, "dispersal_m", 100_000),
        SeedbankHalfLifeYears = AboveZero(cells, "seedbank_half_life_y", 1_000),
        ControlStart = HalfMonthIndex(cells, "control_start"),
        ControlEnd = HalfMonthIndex(cells, "control_end"),
        Sources = sources.Where(cells.Has).ToDictionary(c => c[SourcePrefix.Length..], cells.Text, StringComparer.Ordinal),
    };

    private static string[] List(RowCells cells, string column) =>
        cells.Text(column).Split('|', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    private static T Word<T>(RowCells cells, string column, CsvWords<T> words)
        where T : struct, Enum
    {
        if (!cells.Has(column)) cells.Refuse(column, "The cell is blank.", $"Write {words.Listed}.");
        return cells.OptionalWord(column, words) ?? default;
    }

    private static T[] WordList<T>(RowCells cells, string column, CsvWords<T> words)
        where T : struct, Enum
    {
        var values = new List<T>();
        foreach (var word in List(cells, column))
        {
            if (!words.TryRead(word, out var value))
                cells.Refuse(
                    column, $"The word {word} is not one of those this column knows.", $"Write {words.Listed}, with | between them.");
            else if (values.Contains(value)) cells.Refuse(column, $"The word {word} is there twice.", "Keep it once.");
            else values.Add(value);
        }
        return [.. values];
    }

    private static double? AboveZero(RowCells cells, string column, double high)
    {
        var value = cells.OptionalNumber(column, 0, high, $"above 0, up to {CsvText.Number(high)}");
        if (value is not 0.0) return value;
        cells.Refuse(column, "The number is 0.", "Leave the cell blank when the value is not known; 0 would be counted.");
        return null;
    }

    private static int? HalfMonthIndex(RowCells cells, string column) => cells.OptionalWhole(column, 0, HalfMonth.Count - 1,
        "from 0 (January 1-15) to 23 (December 16-31)");

    private static BloomWindow? Window(RowCells cells, string first, string last)
    {
        var (start, end) = (HalfMonthIndex(cells, first), HalfMonthIndex(cells, last));
        if (cells.Has(first) != cells.Has(last))
            cells.Refuse(cells.Has(first) ? last : first, "Only one end of the bloom window is given.",
                "Write both half-months, or neither.");
        return start is { } from && end is { } to ? new BloomWindow(from, to) : null;
    }
}
