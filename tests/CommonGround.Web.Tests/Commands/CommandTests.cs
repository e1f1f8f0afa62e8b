using System.Text.Json;
using System.Text.RegularExpressions;

namespace CommonGround.Web.Tests.Commands;

/// <summary>The contract of the command line, kept by the real program.</summary>
public sealed class CommandTests : IDisposable
{
    // The contract's fields, in its order.
    private static readonly string[] Fields =
    [
        "by", "name", "asOf", "yards", "richness", "nativeRichness", "introducedRichness", "shannon", "simpson", "inverseSimpson",
            "evenness", "hill0", "hill1", "hill2", "chao2", "chao2Se",
        "meanC", "nativeMeanC", "fqi", "nativeFqi", "adjustedFqi", "coverWeightedMeanC", "withoutC", "onOldSightings", "bloom",
            "coveredShare", "gaps", "lateSeasonCoveredShare", "invasivePressureM2", "cTable", "datesOfBloom",
    ];

    private readonly TempFolder files = new();
    private readonly TempFolder data = new();

    private Terminal Terminal => new(data.Path);

    public void Dispose()
    {
        files.Dispose();
        data.Dispose();
    }

    [Fact]
    public async Task Import_tells_what_was_stored_and_again_that_nothing_changed()
    {
        var (places, sightings) = (Places(), Sightings("N-1,front,Monarda fistulosa,2026-08-01,1\n"));
        var first = await Terminal.DoAsync("import", places, sightings, "--no-demo");
        first.ShouldContain("yards: 2 added, 0 changed, 0 unchanged");
        first.ShouldContain("sightings: 1 added");
        first.ShouldEndWith("Stored.\n");
        (await Terminal.DoAsync("import", places, sightings)).ShouldContain("change nothing");
        (await Terminal.DoAsync("import", places, sightings, "--quiet")).ShouldBeEmpty();
        (await Terminal.DoAsync("import", Sightings("N-1,front,Monarda fistulosa,2026-08-01,9\n"), "--check-only")).ShouldContain(
            "sightings: 0 added, 1 changed, 0 unchanged\nChecked; nothing was stored.");
        (await Terminal.DoAsync("import", Sightings("N-1,front,Monarda fistulosa,2026-08-01,1\n"))).ShouldContain("change nothing");
    }

    [Fact]
    public async Task Import_lists_every_error_and_gives_one_reason_on_standard_error()
    {
        await PreparedData.FillAsync(data.Path, demo: false);
        var answer = await Terminal.RunAsync("import", Places(),
            Sightings("N-1,front,Planta ignota,2026-08-01,1\nN-7,front,Monarda fistulosa,2026-08-01,1\n"), "--no-demo");
        answer.Code.ShouldBe(1);
        answer.Error.ShouldBe("Nothing was stored: 2 errors in 1 file, listed above.\n");
        answer.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length.ShouldBe(2);
        answer.Output
            .ShouldContain(
            "sightings.csv, line 2, scientific_name \"Planta ignota\": The catalogue does not list this name. Did you mean ");
        answer.Output.ShouldContain("sightings.csv, line 3, yard \"N-7\"");
        (await Terminal.DoAsync("measures", "--by", "yard")).ShouldBe("[]\n");
        (await Terminal.DoAsync("import", Places(), Sightings("N-1,front,Planta ignota,2026-08-01,1\n"), "--allow-unlisted")).ShouldContain(
            "sightings: 1 added");
    }

    [Fact]
    public async Task A_file_that_is_not_there_or_no_file_at_all_is_refused()
    {
        (await Terminal.RefuseAsync("import", files.File("none.csv"), "--no-demo")).ShouldContain("There is no file");
        await Terminal.RefuseAsync("import", "--no-demo");
        Directory.GetFileSystemEntries(data.Path).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_work_day_is_chosen_without_a_browser_with_its_bound()
    {
        await PreparedData.FillAsync(data.Path, demo: true);
        var file = files.File("day.json");
        await Terminal.DoAsync("workday", "--on", "2026-09-26", "--people", "4", "--hours", "2", "--out", file, "--quiet");
        using var document = JsonDocument.Parse(await File.ReadAllTextAsync(file));
        var day = document.RootElement;
        day.GetProperty("stops").EnumerateArray().Select(s => s.GetProperty("order").GetInt32())
            .ShouldBe(Enumerable.Range(1, day.GetProperty("stops").GetArrayLength()));
        day.GetProperty("stops").GetArrayLength().ShouldBeGreaterThan(0);
        day.GetProperty("personHoursUsed").GetDouble().ShouldBeLessThanOrEqualTo(8);
        day.GetProperty("boundM2").GetDouble().ShouldBeGreaterThanOrEqualTo(day.GetProperty("pressureRemovedM2").GetDouble());
        day.GetProperty("leftOut").EnumerateArray().ShouldAllBe(l => l.GetProperty("reason").GetString()!.Length > 0);
        (await Terminal.RefuseAsync("workday", "--on", "2026-09-26", "--people", "0", "--hours", "2", "--out", file))
            .ShouldContain("needs people");
        (await Terminal.RefuseAsync("workday", "--on", "Saturday", "--people", "4", "--hours", "2", "--out", file))
            .ShouldContain("is not a day");
    }

    [Fact]
    public async Task Measures_as_JSON_have_exactly_the_contracts_fields_and_standard_output_holds_nothing_else()
    {
        await PreparedData.FillAsync(data.Path, demo: false);
        await Terminal.DoAsync("import", Places(),
            Sightings("N-1,front,Monarda fistulosa,2026-08-01,1\nN-2,front,Bromus inermis,2026-08-02,3\n"), "--no-demo");
        foreach (var (by, names) in new[] { ("yard", new[] { "N-1", "N-2" }), ("block", ["Nörd Street, A to B"]),
            ("street", ["Nörd Street"]), ("neighbourhood", ["Our neighbourhood"]) })
        {
            using var document = JsonDocument.Parse(await Terminal.DoAsync("measures", "--by", by, "--as-of", "2026-08-01"));
            var sites = document.RootElement.EnumerateArray().ToList();
            sites.Select(s => s.GetProperty("name").GetString()).ShouldBe(names);
            foreach (var site in sites)
            {
                site.EnumerateObject().Select(p => p.Name).ShouldBe(Fields);
                (site.GetProperty("by").GetString(), site.GetProperty("asOf").GetString()).ShouldBe((by, "2026-08-01"));
                site.GetProperty("bloom").EnumerateArray().Select(b => string.Join(' ', b.EnumerateObject().Select(p => p.Name)))
                    .ShouldBe(Enumerable.Repeat("n areaM2 support", 24));
                site.GetProperty("gaps").EnumerateArray().ShouldAllBe(g => g.GetProperty("from").GetInt32() <= g.GetProperty("to")
                    .GetInt32());
            }
        }
    }

    [Fact]
    public async Task Undefined_is_null_in_JSON_and_blank_in_CSV_and_the_figures_are_the_same()
    {
        await PreparedData.FillAsync(data.Path, demo: false);
        await Terminal.DoAsync("import", Places(),
            Sightings("N-1,front,Monarda fistulosa,2026-08-01,0.1\nN-1,back,Symphyotrichum laeve,2026-08-01,0.2\n"), "--no-demo");
        using var document = JsonDocument.Parse(await Terminal.DoAsync("measures", "--by", "yard"));
        var (full, empty) = (document.RootElement[0], document.RootElement[1]);
        empty.GetProperty("shannon").ValueKind.ShouldBe(JsonValueKind.Null);
        empty.GetProperty("richness").GetInt32().ShouldBe(0);
        empty.GetProperty("coveredShare").GetDouble().ShouldBe(0);
        full.GetProperty("chao2").ValueKind.ShouldBe(JsonValueKind.Null);
        // Shares of a third and two thirds: −(1/3·ln(1/3) + 2/3·ln(2/3)).
        full.GetProperty("shannon").GetDouble().ShouldBe((Math.Log(3) / 3) + (2 * Math.Log(1.5) / 3), 1e-12);
        var path = files.File("measures.csv");
        (await Terminal.DoAsync("measures", "--by", "yard", "--format", "csv", "--out", path)).ShouldBeEmpty();
        var rows = File.ReadAllLines(path).Select(l => Regex.Split(l, ",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)").Select(c => c.Trim('"'))
            .ToArray()).ToList();
        rows.Count.ShouldBe(3);
        string Cell(int row, string column) => rows[row][Array.IndexOf(rows[0], column)];
        rows[0].Where(c => !c.StartsWith("bloom", StringComparison.Ordinal)).ShouldBe(Fields.Where(f => f != "bloom"));
        rows[0].Count(c => c.StartsWith("bloom", StringComparison.Ordinal)).ShouldBe(72);
        foreach (var field in Fields.Where(f => f is not ("bloom" or "gaps")))
        {
            var value = full.GetProperty(field);
            Cell(1, field).ShouldBe(value.ValueKind switch
            {
                JsonValueKind.Null => "",
                JsonValueKind.String => value.GetString()!,
                _ => value.GetRawText()
            }, field);
        }

        Cell(2, "shannon").ShouldBeEmpty();
        Cell(2, "gaps").ShouldBe("6-19");
        Cell(1, "bloom15_areaM2").ShouldBe(full.GetProperty("bloom")[15].GetProperty("areaM2").GetRawText());
    }

    [Theory]
    [InlineData("measures")]
    [InlineData("measures", "--by", "house")]
    [InlineData("measures", "--by", "yard", "--as-of", "19.8.2026")]
    [InlineData("measures", "--by", "yard", "--as-of", "2999-01-01")]
    [InlineData("measures", "--by", "yard", "--format", "xml")]
    [InlineData("export", "--format", "csv")]
    [InlineData("export", "--format", "wav", "--out", "x")]
    [InlineData("report", "--yard", "N-1")]
    [InlineData("report", "--out", "x")]
    [InlineData("report", "--yard", "N-1", "--street", "North", "--out", "x")]
    [InlineData("plan", "--yard", "N-1")]
    [InlineData("plan", "--out", "plan.json")]
    [InlineData("plan", "--yard", "N-1", "--street", "Elm Street", "--out", "plan.json")]
    [InlineData("plan", "--yard", "N-1", "--budget", "5", "--out", "plan.json")]
    [InlineData("backup")]
    [InlineData("mesures", "--by", "yard")]
    public async Task A_command_with_a_slip_is_refused_with_one_line(params string[] arguments) =>
        (await Terminal.RefuseAsync([.. arguments, "--no-demo"])).Length.ShouldBeGreaterThan(10);

    [Fact]
    public async Task Measures_of_a_day_to_come_are_refused_with_what_day_it_is() =>
        (await Terminal.RefuseAsync("measures", "--by", "yard", "--as-of", "2999-01-01", "--no-demo")).ShouldContain(
            "2999-01-01 is in the future; today is");

    [Fact]
    public async Task Migrate_and_check_say_that_all_is_well_and_check_says_what_is_not()
    {
        (await Terminal.DoAsync("migrate")).ShouldStartWith("The schema is up to date");
        await Terminal.DoAsync("import", Places(), files.Write("beds.csv", "yard,bed,area_m2\nN-1,front,10\n"),
            Sightings("N-1,front,Monarda fistulosa,2026-08-01,5\n"), "--no-demo");
        (await Terminal.DoAsync("check")).ShouldStartWith("All is well");
        await Terminal.DoAsync("import", files.Write("beds.csv", "yard,bed,area_m2\nN-1,front,4\n"));
        var answer = await Terminal.RunAsync("check");
        answer.Code.ShouldBe(1);
        answer.Output
            .ShouldBe("Yard N-1, front, 2026-08-01: a sighting covers 5 m², the bed is 4 m². What to do: record the plant again with its "
            + "true cover, or correct the bed's area.\n");
        answer.Error.ShouldBe("The check found 1 thing wrong, listed above.\n");
    }

    [Fact]
    public async Task A_report_of_a_yard_is_a_PDF_and_of_none_a_refusal()
    {
        await PreparedData.FillAsync(data.Path, demo: false);
        await Terminal.DoAsync("import", Places(), "--no-demo");
        var path = files.File("yard.pdf");
        await Terminal.DoAsync("report", "--yard", "N-1", "--of", "yard", "--out", path, "--paper", "a4");
        System.Text.Encoding.ASCII.GetString(await File.ReadAllBytesAsync(path), 0, 5).ShouldBe("%PDF-");
        (await Terminal.RefuseAsync("report", "--yard", "X-9", "--out", path)).ShouldBe("There is no yard X-9.");
    }

    [Fact]
    public async Task The_exact_export_imported_into_an_empty_folder_gives_the_same_measures()
    {
        await PreparedData.FillAsync(data.Path, demo: false);
        await Terminal.DoAsync("import", Places(),
            Sightings("N-1,front,Monarda fistulosa,2026-08-01,1\nN-2,öst,Symphyotrichum cf. laeve,2026-08-02,0.3\n"), "--no-demo");
        var zip = files.File("all.zip");
        (await Terminal.DoAsync("export", "--format", "csv", "--out", zip, "--exact")).ShouldBeEmpty();
        await System.IO.Compression.ZipFile.ExtractToDirectoryAsync(zip, files.File("all"));
        using var other = new TempFolder();
        var elsewhere = new Terminal(other.Path);
        await elsewhere.DoAsync(["import", .. Directory.GetFiles(files.File("all")), "--no-demo"]);
        foreach (var by in new[] { "yard", "block", "neighbourhood" })
        {
            (await elsewhere.DoAsync("measures", "--by", by)).ShouldBe(await Terminal.DoAsync("measures", "--by", by));
        }

        foreach (var format in new[] { "json", "geojson" })
        {
            var path = files.File($"all.{format}");
            await Terminal.DoAsync("export", "--format", format, "--out", path);
            using var document = JsonDocument.Parse(await File.ReadAllTextAsync(path));
            document.RootElement.ValueKind.ShouldBe(JsonValueKind.Object);
        }
    }

    private string Places() =>
        files.Write("places.csv",
            "street,block,yard,latitude,longitude,yard_m2\nNörd Street,A to B,N-1,41.5123456,-88.5123456,100\nNörd Street,A to "
                + "B,N-2,41.5,-88.5,100\n");

    private string Sightings(string rows) => files.Write("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\n" + rows);
}
