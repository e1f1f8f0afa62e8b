using System.Globalization;
using System.Text;

namespace CommonGround.Web.Tests.Features.Import;

/// <summary>
/// Twenty spreadsheets as untidy as those that groups keep, with invented content, taken through the wizard. What each must become
/// stands beside it in a file that was read and checked by hand; docs/untidy-spreadsheets.md says what each takes.
/// </summary>
public class UntidySpreadsheetTests
{
    private const string Write = "COMMONGROUND_WRITE_UNTIDY";

    private static readonly UntidyFile[] Files =
    [
        new("01-garden-survey.xlsx",
            "two title rows over merged cells, sizes without a unit, days like 8/4/26, common and old names, no beds",
            ("unit Size", "ft2"), ("days", "MonthFirst")),
        new("02-lots.csv",
            "titles, “7,200”, “full sun”, “med”, households instead of codes, no coordinates, a lawn without a unit"),
        new("03-merged-yards.xlsx", "yards and beds over merged cells, a row of totals and a note below the table"),
        new("04-two-sheets.xlsx", "yards on one sheet, plants on another, joined by the household; counts instead of sizes"),
        new("05-a-sheet-a-yard.xlsx", "the sheet’s name is the yard, a third sheet holds notes"),
        new("06-phone-notes.csv", "days without a year, sizes with and without a unit, length by width"),
        new("07-semicolons.csv", "semicolons, decimal commas, days like 14.8.2026"),
        new("08-latin-and-common.csv", "Latin names with gaps beside common names, a question mark, a genus alone"),
        new("09-weeds.xlsx", "a title, lengths by widths, “60%”, “about 20”"),
        new("10-rain-gauge.csv", "a title, inches, monthly totals between the days", ("days", "MonthFirst")),
        new("11-temperatures.csv", "degrees Fahrenheit, the highest first"),
        new("12-seed-prices.xlsx", "a title, dollar signs, prices an ounce, “n/a”"),
        new("13-beds.xlsx", "beds without a unit, only the year or month of planting", ("unit Bed size", "ft2")),
        new("14-row-of-units.csv", "the unit in a row of its own below the headings"),
        new("15-odd-codes.csv", "“ki 2” for KI-02, acres in one column and square feet in another"),
        new("16-misspelt.csv", "eight plants, seven of them misspelt and one nobody can name",
            ("name purple aster", "purple aster")),
        new("17-one-bed.csv", "plants and numbers only: yard, bed and day stand nowhere",
            ("yard", "KI-04"), ("observed_on", "2026-07-12")),
        new("18-printed-list.csv", "headings repeated on each page, sums, blank rows, a page number"),
        new("19-words-for-numbers.csv", "“three”, “10-12”, “about 20”, “in bloom”, “maybe”, “volunteer”"),
        new("20-tabs.txt", "tabs, weekdays and times of day beside the days, two names in one cell, “~5”"),
    ];

    [Fact]
    public async Task Twenty_untidy_spreadsheets_come_in_as_they_are_and_the_page_says_what_each_takes()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync([.. new[] { "plants.csv", "quarry-bend/streets.geojson", "quarry-bend/places.csv", "quarry-bend/beds.csv" }
            .Select(f => (Path.GetFileName(f), File.ReadAllText(Path.Combine(TempFolder.Repository(), "seed-data", f))))]);
        var text = new StringBuilder("# Twenty untidy spreadsheets\n\nWritten by a test that takes each file through the import; nobody "
            + "edits this page. The files lie in\n`tests/CommonGround.Web.Tests/Features/Import/Untidy`, their content is invented.\n"
            + $"To write it anew: `{Write}=1 dotnet test tests/CommonGround.Web.Tests --filter UntidySpreadsheetTests`.\n\n"
            + "*Questions* must be answered before the rows are checked; *names* are plants of which none was put forward;\n*shown* are "
            + "guesses that are already filled in and only to be looked at. *Presses* count choosing the file, each\nanswer and each "
            + "button.\n\n| file | what is untidy in it | questions | names | shown | presses | rows stored |\n"
            + "|---|---|---|---|---|---|---|\n");
        var presses = new List<int>();
        var faults = new List<string>();
        foreach (var file in Files)
        {
            try
            {
                var (walk, rows) = await ThroughAsync(garden, file);
                presses.Add(walk.Presses);
                text.Append(CultureInfo.InvariantCulture,
                    $"| {file.File} | {file.Untidy} | {walk.Questions} | {walk.Names} | {walk.Guesses} | {walk.Presses} | {rows} |\n");
            }
            catch (Exception fault) when (fault is ShouldAssertException or InvalidOperationException)
            {
                faults.Add($"{file.File}: {fault.Message}");
            }
        }

        faults.ShouldBeEmpty();
        var middle = presses.Order().ElementAt(presses.Count / 2);
        text.Append(CultureInfo.InvariantCulture, $"\nIn the middle {middle} presses, at most {presses.Max()}.\n");
        await ShouldBeAsync(Path.Combine(TempFolder.Repository(), "docs", "untidy-spreadsheets.md"), text.ToString());
    }

    private static async Task<(UntidyWalk Walk, int Rows)> ThroughAsync(Garden garden, UntidyFile file)
    {
        var before = await UntidyWalk.StoredAsync(garden);
        var walk = new UntidyWalk(garden, file);
        await walk.RunAsync();
        var rows = walk.Wizard.Outcome!.Counts.Sum(c => c.Added + c.Changed);
        await walk.StoreAsync();
        var stored = (await UntidyWalk.StoredAsync(garden)).Except(before).Order(StringComparer.Ordinal);
        await ShouldBeAsync(Path.Combine(UntidyWalk.Folder, Path.ChangeExtension(file.File, ".stored")),
            string.Concat(stored.Select(row => row + "\n")));

        // The same file once more, with the same answers, changes nothing.
        var again = new UntidyWalk(garden, file);
        await again.RunAsync();
        again.Wizard.Outcome!.Changed.ShouldBeFalse(file.File);
        return (walk, rows);
    }

    private static async Task ShouldBeAsync(string path, string text)
    {
        if (Environment.GetEnvironmentVariable(Write) == "1")
        {
            await File.WriteAllTextAsync(path, text);
        }

        (await File.ReadAllTextAsync(path)).ReplaceLineEndings("\n").ShouldBe(text, Path.GetFileName(path));
    }
}
