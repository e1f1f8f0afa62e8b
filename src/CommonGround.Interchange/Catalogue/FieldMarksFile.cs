using System.Globalization;
using CommonGround.Ecology.Identification;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;

namespace CommonGround.Interchange.Catalogue;

/// <summary>A taxon's cell of the matrix: what it shows and who says so.</summary>
public sealed record FieldCell(IReadOnlyList<string> States, string Source);

/// <summary>The characters of a plant that the field asks for: field-characters.csv and field-states.csv say which there are,
/// field-marks.csv what families, genera and species show, and what the catalogue and characters.csv say already is read out of
/// them.</summary>
public sealed class FieldMarksFile
{
    private const string FromCatalogue = "the catalogue; see the plant’s page", FromDrawing = "characters.csv: from memory";
    private readonly Dictionary<(string Name, string Character), FieldCell> marks = [];
    private readonly Dictionary<string, string[]> only;

    /// <summary>In the order in which they are asked where nothing is known.</summary>
    public IReadOnlyList<FieldCharacter> Characters { get; }

    /// <summary>Reads the three files.</summary>
    /// <exception cref="FormatException">A row that is broken, a state without a character, a mark that names a state there is none of;
    /// the message names file, line and value.</exception>
    public FieldMarksFile(byte[] characters, byte[] states, byte[] fieldMarks)
    {
        var words = Rows("field-states.csv", states, "character", "state", "words").GroupBy(r => r[0], StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => g.Select(r => new CharacterState(r[1], r[2])).ToList(), StringComparer.Ordinal);
        Characters =
        [
            .. Rows("field-characters.csv", characters, "character", "question", "error_rate", "cost_bits", "needs_flower").Select(r =>
                new FieldCharacter(r[0], r[1], words.GetValueOrDefault(r[0])
                    ?? throw new FormatException($"field-states.csv has no states of {r[0]}; add two or more."), Number(r[2]), Number(r[3]),
                    r[4] == "yes")),
        ];
        only = Rows("field-characters.csv", characters, "character", "only").Where(r => r[1].Length > 0)
            .ToDictionary(r => r[0], r => r[1].Split('|'), StringComparer.Ordinal);
        var byId = Characters.ToDictionary(c => c.Id, StringComparer.Ordinal);
        foreach (var row in Rows("field-marks.csv", fieldMarks, "name", "character", "states", "source"))
        {
            var shown = row[2].Split('|');
            if (!byId.TryGetValue(row[1], out var character) || shown.Any(s => character.States.All(k => k.Id != s)))
            {
                throw new FormatException($"field-marks.csv: {row[0]} has {row[1]} “{row[2]}”, which field-states.csv does not know.");
            }

            if (!marks.TryAdd((row[0], row[1]), new(shown, row[3])))
            {
                throw new FormatException($"field-marks.csv names {row[1]} of {row[0]} twice; keep one row.");
            }
        }
    }

    /// <summary>What is known of one taxon: its own mark, else what is drawn or listed of it, else its genus's, else its
    /// family's.</summary>
    /// <returns>Null where nobody knows.</returns>
    public IReadOnlyDictionary<string, FieldCell> Of(CatalogueTaxon taxon, Ecology.Taxa.Characters? drawn)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var read = DrawnCells.Of(taxon, drawn);
        var cells = new Dictionary<string, FieldCell>(StringComparer.Ordinal);
        foreach (var character in Characters)
        {
            var own = read.TryGetValue(character.Id, out var known)
                ? new FieldCell(known, character.Id is "height" or "place" or "flower_colour" ? FromCatalogue : FromDrawing) : null;
            if ((marks.GetValueOrDefault((taxon.ScientificName, character.Id)) ?? own
                ?? marks.GetValueOrDefault((taxon.ScientificName.Split(' ')[0], character.Id))
                ?? marks.GetValueOrDefault((taxon.Family, character.Id))) is { } cell)
            {
                cells[character.Id] = cell;
            }
        }

        return cells;
    }

    /// <summary>The matrix over these taxa.</summary>
    public CharacterMatrix Matrix(IReadOnlyList<CatalogueTaxon> taxa, IReadOnlyDictionary<string, Ecology.Taxa.Characters> drawn)
    {
        ArgumentNullException.ThrowIfNull(taxa);
        ArgumentNullException.ThrowIfNull(drawn);
        var cells = taxa.Select(t => Of(t, drawn.GetValueOrDefault(t.ScientificName))).ToList();
        return new(Characters, [.. taxa.Select(t => t.ScientificName)],
            (t, c) => cells[t].TryGetValue(Characters[c].Id, out var cell) ? Characters[c].Bits(cell.States)
                : Has(taxa[t], Characters[c].Id, cells[t]) ? 0 : CharacterMatrix.NotThere);
    }

    /// <summary>Whether a plant of this family or life form has the character at all: an aster has no ligule.</summary>
    private bool Has(CatalogueTaxon taxon, string character, IReadOnlyDictionary<string, FieldCell> cells) =>
        !only.TryGetValue(character, out var groups) || taxon.Family.Length == 0 || groups.Contains(taxon.Family, StringComparer.Ordinal)
            || !cells.TryGetValue("life", out var life) || life.States.Any(s => groups.Contains(s, StringComparer.Ordinal));

    private static IEnumerable<string[]> Rows(string file, byte[] content, params string[] columns)
    {
        var table = CsvTable.ReadShipped(file, content);
        var at = columns.Select(c => table.Header.Index().Where(h => h.Item == c).Select(h => (int?)h.Index).FirstOrDefault()
            ?? throw new FormatException($"{file} has no column {c}.")).ToArray();
        return table.Records.Select(r => at.Select(i => r.Cells[i]).ToArray());
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
