using System.Globalization;
using CommonGround.Interchange;
using CommonGround.Interchange.Csv;
using CommonGround.Storage;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Import;

/// <summary>An untidy spreadsheet and what an organiser who knows it answers.</summary>
/// <param name="File">Name among the test files.</param>
/// <param name="Untidy">What is untidy in it.</param>
/// <param name="Answers">By question: "unit Size", "days", "year", "kind", a column of ours, or "name purple aster".</param>
internal sealed record UntidyFile(string File, string Untidy, params (string Question, string Answer)[] Answers);

/// <summary>Takes an untidy file through the wizard as a hand would, and counts what it took.</summary>
internal sealed class UntidyWalk(Garden garden, UntidyFile file)
{
    public int Questions { get; private set; }
    public int Names { get; private set; }

    /// <summary>Choosing the file, every answer, and every button.</summary>
    public int Presses { get; private set; } = 1;

    /// <summary>What was guessed and shown, to be looked at.</summary>
    public int Guesses { get; private set; }

    public ImportWizard Wizard { get; } = new(new ImportFiles(garden.Database, garden.Neighbourhood), garden.Clock);

    public async Task RunAsync()
    {
        await Wizard.AddAsync(file.File, await File.ReadAllBytesAsync(Path.Combine(Folder, file.File)));
        foreach (var table in Wizard.Taken)
        {
            Answer(table);
            Guesses += table.Units.Count(u => u.Source == UnitSource.Guess) + table.Same.Count(s => s.Column is "bed" or "yard");
        }

        Wizard.Ready.ShouldBeTrue(file.File);
        await PressAsync(() => Wizard.CheckAsync(Garden.Organiser, () => { }));
        if (Wizard.Step == ImportStep.Names)
        {
            ChooseNames();
            await PressAsync(() => Wizard.CheckAsync(Garden.Organiser, () => { }));
        }

        Wizard.Outcome!.Errors.Select(e => e.ToString()).ShouldBeEmpty(file.File);
    }

    public async Task StoreAsync()
    {
        await PressAsync(() => Wizard.StoreAsync(Garden.Organiser, () => { }));
        Wizard.Step.ShouldBe(ImportStep.Done, file.File);
    }

    public static string Folder => Path.Combine(TempFolder.Repository(), "tests", "CommonGround.Web.Tests", "Features", "Import",
        "Untidy");

    private Task PressAsync(Func<Task> press)
    {
        Presses++;
        return press();
    }

    private void Answer(UploadedFile table)
    {
        while (table.Open.Count > 0)
        {
            var open = table.Open[0];
            Questions++;
            Presses++;
            if (table.Same.FirstOrDefault(s => s.Value.Length == 0) is { Column: { } column }
                && open.Contains("in every row", StringComparison.Ordinal))
            {
                table.SaySame(column, Said(column, open));
            }
            else if (table.Units.FirstOrDefault(u => u.Unit is null) is { Column: { } measured }
                && open.Contains("unit", StringComparison.Ordinal))
            {
                table.SayUnit(measured, MeasureUnit.Keyed(Said($"unit {table.Heading(measured)}", open))!);
            }
            else if (open.Contains("of which year", StringComparison.Ordinal))
            {
                table.SayYear(int.Parse(Said("year", open), CultureInfo.InvariantCulture));
            }
            else if (open.Contains("means", StringComparison.Ordinal))
            {
                table.WriteDays(Enum.Parse<DateOrder>(Said("days", open)));
            }
            else
            {
                table.ChangeKind(Enum.Parse<ImportKind>(Said("kind", open)));
            }
        }
    }

    private void ChooseNames()
    {
        foreach (var name in Wizard.Names.Where(n => Wizard.Decided(n).Length == 0))
        {
            Names++;
            Presses++;
            var meant = Said("name " + name.Name, "a name");
            (name.Nearest.Contains(meant) || meant == name.Name || meant.EndsWith(" sp.", StringComparison.Ordinal))
                .ShouldBeTrue($"{file.File}: {meant} is not proposed for {name.Name}, but {string.Join(", ", name.Nearest)}");
            Wizard.Decide(name, meant);
        }
    }

    private string Said(string question, string open) =>
        file.Answers.FirstOrDefault(a => a.Question == question).Answer ?? throw new InvalidOperationException(
            $"{file.File} asks “{open}”, and nothing is said to “{question}”.");

    /// <summary>Everything that files may store, one line a row, to see what became of them.</summary>
    public static async Task<List<string>> StoredAsync(Garden garden)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        var yards = await db.Yards.ToDictionaryAsync(y => y.Id);
        var beds = await db.Beds.ToDictionaryAsync(b => b.Id);
        var taxa = await db.Taxa.ToDictionaryAsync(t => t.Id, t => t.ScientificName);
        var rows = new List<string>();
        rows.AddRange(yards.Values.Select(y => Line($"yard {y.Code} “{y.Household}” {y.AreaSquareMetres:0.##} m², ")
            + Line($"lawn {y.LawnSquareMetres:0.##} m², {y.Light}, {y.Moisture}, {y.SoilGroup}, ")
            + Line($"{(y.Shared ? "shared" : "not shared")}, at {y.Latitude:0.####} {y.Longitude:0.####}")));
        rows.AddRange(beds.Values.Select(b => Line($"bed {yards[b.YardId].Code} {b.Name}, {b.AreaSquareMetres:0.##} m², ")
            + Line($"since {b.EstablishedOn:yyyy-MM-dd}, {b.Light}")));
        rows.AddRange((await db.Sightings.ToListAsync()).Select(s =>
            Line($"seen {s.ObservedOn:yyyy-MM-dd} {yards[s.YardId].Code} {beds[s.BedId].Name}: {s.Qualifier} {taxa[s.TaxonId]}, ")
            + Line($"{s.CoverSquareMetres:0.####} m², count {s.Count}, {s.Certainty}, {s.Origin}, ")
            + Line($"stage {s.GrowthStage}, by {s.Observer}; {s.Remarks}")));
        rows.AddRange((await db.Infestations.ToListAsync()).Select(i =>
            Line($"weed {i.ObservedOn:yyyy-MM-dd} {yards[i.YardId!.Value].Code}: {taxa[i.TaxonId]}, ")
            + Line($"{i.AreaSquareMetres:0.####} m², {i.CoverPercent:0} %")));
        rows.AddRange((await db.WeatherDays.ToListAsync()).Select(w => Line($"day {w.Date:yyyy-MM-dd}: rain {w.RainMillimetres:0.##} mm, ")
            + Line($"{w.MinimumCelsius:0.##} to {w.MaximumCelsius:0.##} °C")));
        rows.AddRange((await db.Prices.ToListAsync()).Select(p => Line($"price {taxa[p.TaxonId]}: seed {p.SeedPerGram:0.####} a gram, ")
            + Line($"plug {p.PlugEach:0.##}")));
        return rows;
    }

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
