using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>Reads one row of characters.csv and says what is wrong with it.</summary>
internal sealed class CharactersRow
{
    private readonly string fileName;
    private readonly Dictionary<string, int> at;

    public CharactersRow(string fileName, IReadOnlyList<string> header)
    {
        this.fileName = fileName;
        at = header.Index().ToDictionary(p => p.Item, p => p.Index, StringComparer.Ordinal);
        string[] needed =
        [
            "scientific_name", "common_name", "height_cm", "spread_cm", "stems", "leaves_per_node", "nodes", "leaflets",
                "leaf_length_cm", "leaf_width_cm", "leaf_taper",
            "inflorescence_length_cm", "inflorescence_width_cm", "flowers_per_stem", "flower_width_cm", "rays", "ray_droop_degrees",
                "emerges", "bloom_from", "bloom_to", "dies_back",
            "first_year_size", "source", .. CharactersFile.Words.Keys,
        ];
        if (Array.Find(needed, c => !at.ContainsKey(c)) is { } missing) throw new FormatException($"{fileName} has no column {missing}.");
    }

    public Characters Read(CsvRecord record)
    {
        var (from, to) = (Whole(record, "bloom_from", 0, 23), Whole(record, "bloom_to", 0, 23));
        if (to < from) throw Wrong(record, "bloom_to", "it comes before bloom_from");
        return new Characters
        {
            ScientificName = Text(record, "scientific_name"),
            CommonName = Text(record, "common_name"),
            Form = Word(record, "form"),
            HeightCm = Number(record, "height_cm", 1, 4000),
            SpreadCm = Number(record, "spread_cm", 1, 3000),
            Stems = Whole(record, "stems", 0, 80),
            Habit = Word(record, "habit"),
            Branched = Word(record, "branched") == "yes",
            LeafPlace = Word(record, "leaf_place"),
            LeavesPerNode = Whole(record, "leaves_per_node", 0, 12),
            Nodes = Whole(record, "nodes", 0, 200),
            Rosette = Word(record, "rosette") == "yes",
            LeafShape = Word(record, "leaf_shape"),
            Leaflets = Whole(record, "leaflets", 0, 40),
            LeafLengthCm = Number(record, "leaf_length_cm", 0.05, 300),
            LeafWidthCm = Number(record, "leaf_width_cm", 0.05, 200),
            LeafEdge = Word(record, "leaf_edge"),
            LeafTaper = Number(record, "leaf_taper", 0.05, 1),
            Inflorescence = Word(record, "inflorescence"),
            InflorescenceLengthCm = Number(record, "inflorescence_length_cm", 0.5, 200),
            InflorescenceWidthCm = Number(record, "inflorescence_width_cm", 0.5, 200),
            FlowersPerStem = Whole(record, "flowers_per_stem", 0, 400),
            Flower = Word(record, "flower"),
            FlowerWidthCm = Number(record, "flower_width_cm", 0.05, 40),
            Rays = Whole(record, "rays", 0, 60),
            RayTip = Word(record, "ray_tip"),
            RayDroopDegrees = Number(record, "ray_droop_degrees", -70, 90),
            FlowerColour = Word(record, "flower_colour"),
            CentreColour = Word(record, "centre_colour"),
            SeedHead = Word(record, "seed_head"),
            SeedColour = Word(record, "seed_colour"),
            Winter = Word(record, "winter"),
            DryColour = Word(record, "dry_colour"),
            Emerges = Whole(record, "emerges", 0, 23),
            BloomFrom = from,
            BloomTo = to,
            DiesBack = Whole(record, "dies_back", 1, 24),
            FirstYearSize = Number(record, "first_year_size", 0.05, 1),
            FirstYearFlowers = Word(record, "first_year_flowers") == "yes",
            Source = Text(record, "source"),
        };
    }

    private string Cell(CsvRecord record, string column) => record.Cells[at[column]].Trim();

    private string Text(CsvRecord record, string column) => Cell(record, column) is { Length: > 0 } text ? text
        : throw Wrong(record, column, "it is empty");

    private string Word(CsvRecord record, string column)
    {
        var word = Text(record, column);
        return CharactersFile.Words[column].Contains(word) ? word
            : throw Wrong(record, column, $"the words are {string.Join(", ", CharactersFile.Words[column])}");
    }

    private double Number(CsvRecord record, string column, double least, double most) =>
        double.TryParse(Cell(record, column), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value >= least
            && value <= most
            ? value : throw Wrong(record, column, FormattableString.Invariant($"it must be a number from {least} to {most}"));

    private int Whole(CsvRecord record, string column, int least, int most) =>
        int.TryParse(Cell(record, column), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value) && value >= least
            && value <= most
            ? value : throw Wrong(record, column, FormattableString.Invariant($"it must be a whole number from {least} to {most}"));

    private FormatException Wrong(CsvRecord record, string column, string why) =>
        new($"{fileName}, line {record.Line}, column {column}: '{Cell(record, column)}' will not do; {why}.");
}
