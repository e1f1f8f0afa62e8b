using System.IO.Compression;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Plants;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Plants;

public class PlantOverridesTests
{
    private const string Sighting = "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Monarda fistulosa,2026-07-01,1\n";

    [Fact]
    public async Task A_groups_value_holds_in_every_measure_and_on_the_plants_page()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv", Sighting));
        (await MeanCAsync(garden)).ShouldBe(4);
        (await SetAsync(garden, "c_value", "9")).ShouldBeEmpty();
        (await MeanCAsync(garden)).ShouldBe(9);
        (await SetAsync(garden, "nativity", "introduced")).ShouldBeEmpty();
        (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood.NativeRichness.ShouldBe(0);
        var page = (await garden.Catalogue.GetAsync("monarda-fistulosa", organiser: true, new(false))).ShouldNotBeNull();
        page.Facts.Single(f => f.Trait == "nativity").ShouldSatisfyAllConditions(f => f.Figure.ShouldBe("introduced"),
            f => f.HowSure.ShouldStartWith("set by this group"), f => f.Source.ShouldContain("measured in five yards"));
    }

    [Fact]
    public async Task It_holds_in_the_list_of_prices_and_so_in_plans()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await SetAsync(garden, "nativity", "introduced")).ShouldBeEmpty();
        (await new GroupPrices(garden.Database, garden.Neighbourhood).LinesAsync()).ShouldNotContain(l =>
            l.ScientificName == Flora.Bergamot);
    }

    [Fact]
    public async Task It_holds_where_a_count_becomes_cover()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await SetAsync(garden, "spacing_m", "0.5")).ShouldBeEmpty();
        await garden.StoreAsync(("sightings.csv",
            "yard,bed,scientific_name,observed_on,count\nN-1,front,Monarda fistulosa,2026-07-01,4\n"));
        (await garden.SightingsAsync()).ShouldHaveSingleItem().CoverSquareMetres.ShouldBe(4 * 0.866 * 0.25, 1e-9);
    }

    [Fact]
    public async Task A_newer_catalogue_never_loses_it()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv", Sighting));
        (await SetAsync(garden, "c_value", "9")).ShouldBeEmpty();
        await garden.StoreAsync(("plants.csv",
            "scientific_name,nativity,life_form,c_value,c_region,source_c\nMonarda fistulosa,native,forb,2,a newer table,a newer table\n"));
        (await garden.Overrides.OfAsync(Flora.Bergamot)).ShouldHaveSingleItem().ShouldSatisfyAllConditions(o => o.Value.ShouldBe("9"),
            o => o.Catalogue.ShouldBe("2"));
        (await MeanCAsync(garden)).ShouldBe(9);
        (await garden.Overrides.RemoveAsync(Flora.Bergamot, "c_value", Garden.Organiser)).ShouldBeEmpty();
        (await MeanCAsync(garden)).ShouldBe(2);
    }

    [Fact]
    public async Task It_is_kept_in_history_and_undone_like_any_change()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv", Sighting));
        (await SetAsync(garden, "c_value", "9")).ShouldBeEmpty();
        await using (var db = await garden.Database.CreateDbContextAsync())
        {
            var change = await db.Changes.OrderByDescending(c => c.Id).FirstAsync();
            change.What.ShouldBe("set C value of wild bergamot to 9");
            (await garden.Undo.UndoAsync(change.Id, Garden.Organiser)).ShouldBeEmpty();
        }

        (await garden.Overrides.OfAsync(Flora.Bergamot)).ShouldBeEmpty();
        (await MeanCAsync(garden)).ShouldBe(4);
    }

    [Fact]
    public async Task It_is_exported_and_brought_back_by_the_same_file()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await SetAsync(garden, "moisture", "dry|medium")).ShouldBeEmpty();
        using var zip = new MemoryStream();
        await garden.Export.WriteCsvZipAsync(zip, exact: true);
        using var archive = new ZipArchive(zip, ZipArchiveMode.Read);
        using var reader = new StreamReader(await archive.GetEntry("plant-overrides.csv")!.OpenAsync());
        var text = await reader.ReadToEndAsync();
        using var other = await Garden.WithOneYardAsync();
        await other.StoreAsync(("plant-overrides.csv", text));
        (await other.Overrides.OfAsync(Flora.Bergamot)).ShouldHaveSingleItem().Reason.ShouldBe("measured in five yards");
        (await other.Live.FiguresAsync(organiser: true)).Matrix.Taxa.Single(t => t.ScientificName == Flora.Bergamot).Moisture
            .ShouldBe([Moisture.Dry, Moisture.Medium]);
    }

    [Theory]
    [InlineData("height_max_m", "tall", "value")]
    [InlineData("height_max_m", "0", "value")]
    [InlineData("c_value", "11", "value")]
    [InlineData("bloom", "12", "value")]
    [InlineData("light", "full_sun|full_sun", "value")]
    [InlineData("toxicity", "none", "value")]
    [InlineData("caution", "", "value")]
    public async Task A_value_that_cannot_be_read_or_must_not_be_overridden_is_refused_in_words(string trait, string value, string field)
    {
        using var garden = await Garden.WithOneYardAsync();
        (await SetAsync(garden, trait, value)).ShouldHaveSingleItem().Field.ShouldBe(field);
        (await garden.Overrides.OfAsync(Flora.Bergamot)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_value_needs_a_reason()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.Overrides.SetAsync(Flora.Bergamot, "c_value", "9", "  ", null, Garden.Organiser)).ShouldHaveSingleItem(
            ).Field.ShouldBe("reason");
    }

    [Fact]
    public async Task Of_two_who_override_at_once_the_second_is_told_and_loses_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await SetAsync(garden, "c_value", "9")).ShouldBeEmpty();
        (await SetAsync(garden, "c_value", "3")).ShouldHaveSingleItem().Message.ShouldContain("while you were typing");
        var stands = (await garden.Overrides.OfAsync(Flora.Bergamot)).ShouldHaveSingleItem();
        stands.Value.ShouldBe("9");
        (await garden.Overrides.SetAsync(Flora.Bergamot, "c_value", "3", "counted again", stands.Version,
            Garden.Organiser)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_broken_row_of_an_imported_file_is_named_and_nothing_is_stored()
    {
        using var garden = await Garden.WithOneYardAsync();
        var outcome = await garden.ImportAsync(("plant-overrides.csv",
            "scientific_name,trait,override_value,override_reason\nMonarda fistulosa,c_value,12,a book\nMonarda fistulosa,caution,none,a "
                + "book\nMonarda fistulosa,light,shade,\n"));
        outcome.Errors.Select(e => (e.Line, e.Column)).ShouldBe([(2, "override_value"), (3, "trait"), (4, "override_reason")]);
        (await garden.Overrides.OfAsync(Flora.Bergamot)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_value_that_can_no_longer_be_read_is_left_out()
    {
        using var garden = await Garden.WithOneYardAsync();
        await garden.StoreAsync(("sightings.csv", Sighting));
        (await SetAsync(garden, "c_value", "9")).ShouldBeEmpty();
        await using var db = await garden.Database.CreateDbContextAsync();
        await db.PlantOverrides.ExecuteUpdateAsync(set => set.SetProperty(o => o.Value, "nine"));
        garden.Live.Forget();
        (await MeanCAsync(garden)).ShouldBe(4);
    }

    [Fact]
    public async Task A_note_reaches_the_organisers_and_is_closed_with_an_answer()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        (await garden.Notes.WriteAsync(Flora.Bergamot, "height_max_m", " Mine is two metres tall. ", member)).ShouldBeEmpty();
        (await garden.Notes.OpenAsync(member)).ShouldBeEmpty("members do not read others' notes");
        var note = (await garden.Notes.OpenAsync(Garden.Organiser)).ShouldHaveSingleItem();
        (note.CommonName, note.Trait, note.Text, note.Who).ShouldBe(("wild bergamot", "height_max_m", "Mine is two metres tall.",
            "a member"));
        (await garden.Notes.CloseAsync(note.Id, "Raised to 1.5 m.", Garden.Organiser)).ShouldBeEmpty();
        (await garden.Notes.OpenAsync(Garden.Organiser)).ShouldBeEmpty();
    }

    [Fact]
    public async Task An_empty_note_and_one_that_is_too_long_are_refused()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync("N-1");
        (await garden.Notes.WriteAsync(Flora.Bergamot, "", " ", member)).ShouldHaveSingleItem().Field.ShouldBe("note");
        (await garden.Notes.WriteAsync(Flora.Bergamot, "", new string('x', PlantNotes.LongestText + 1), member)).ShouldHaveSingleItem(
            ).Field.ShouldBe("note");
        (await garden.Notes.WriteAsync(Flora.Bergamot, "", "Looks wrong.", Garden.Visitor)).ShouldNotBeEmpty();
    }

    private static Task<IReadOnlyList<Problem>> SetAsync(Garden garden, string trait, string value) =>
        garden.Overrides.SetAsync(Flora.Bergamot, trait, value, "measured in five yards", null, Garden.Organiser);

    private static async Task<double?> MeanCAsync(Garden garden) =>
        (await garden.Live.FiguresAsync(organiser: true)).Neighbourhood.NativeMeanC;
}
