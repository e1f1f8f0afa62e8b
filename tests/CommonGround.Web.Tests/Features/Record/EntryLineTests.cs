using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Record;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Tests.Features.Record;

public class EntryLineTests
{
    [Fact]
    public void A_name_a_cover_and_short_words_are_taken_apart()
    {
        var line = EntryLine.Parse("aro ast 1.5 bud prob");
        (line.Name, line.Cover, line.Count, line.GrowthStage, line.Certainty, line.Origin,
            line.Qualifier).ShouldBe(("aro ast", 1.5, null, 5, Certainty.Probable, null, ""));
    }

    [Theory]
    [InlineData("wild bergamot 12x", "wild bergamot", null, 12)]
    [InlineData("wild bergamot 2.5m2", "wild bergamot", 2.5, null)]
    [InlineData("wild bergamot 2.5m²", "wild bergamot", 2.5, null)]
    [InlineData("wild bergamot .5 3x", "wild bergamot", 0.5, 3)]
    [InlineData("  wild   bergamot   0 ", "wild bergamot", 0.0, null)]
    [InlineData("wild bergamot", "wild bergamot", null, null)]
    [InlineData("12x", "12x", null, null)]
    [InlineData("wild bergamot -1", "wild bergamot", -1.0, null)]
    [InlineData("wild bergamot nan", "wild bergamot nan", null, null)]
    [InlineData("wild bergamot infinity", "wild bergamot infinity", null, null)]
    public void Cover_and_count_are_read_from_the_end(string typed, string name, double? cover, int? count)
    {
        var line = EntryLine.Parse(typed);
        (line.Name, line.Cover, line.Count).ShouldBe((name, cover, count));
    }

    [Theory]
    [InlineData("purple coneflower 10 sq ft by the gate", "purple coneflower", 10.0, null, true, "by the gate")]
    [InlineData("purple coneflower 10 square feet", "purple coneflower", 10.0, null, true, "")]
    [InlineData("purple coneflower 2.5 sq. m", "purple coneflower", 2.5, null, false, "")]
    [InlineData("purple coneflower 3 plants near the step", "purple coneflower", null, 3, null, "near the step")]
    [InlineData("purple coneflower 2 \"by the gate\"", "purple coneflower", 2.0, null, null, "by the gate")]
    [InlineData("purple coneflower 2 “by the gate” fl", "purple coneflower", 2.0, null, null, "by the gate")]
    [InlineData("square-stemmed monkey flower fl", "square-stemmed monkey flower", null, null, null, "")]
    public void Units_in_words_and_what_stands_behind_the_amount(string typed, string name, double? cover, int? count, bool? feet,
        string remarks)
    {
        var line = EntryLine.Parse(typed, w => w == "square-stemmed monkey flower");
        (line.Name, line.Cover, line.Count, line.CoverInFeet, line.Remarks).ShouldBe((name, cover, count, feet, remarks));
    }

    [Theory]
    [InlineData("leaf", 1)]
    [InlineData("bud", 5)]
    [InlineData("fl", 6)]
    [InlineData("FLOWERING", 6)]
    [InlineData("fruit", 7)]
    [InlineData("ripe", 8)]
    [InlineData("dormant", 9)]
    public void A_growth_stage_is_a_word(string word, int stage) => EntryLine.Parse($"aro ast {word}").GrowthStage.ShouldBe(stage);

    [Fact]
    public void Doubt_may_stand_inside_the_name_or_at_the_end()
    {
        var inside = EntryLine.Parse("Aster cf. laevis 2");
        (inside.Name, inside.Qualifier, inside.Certainty, inside.Cover).ShouldBe(("Aster laevis", "cf.", Certainty.Tentative, 2));
        var affinity = EntryLine.Parse("Aster aff laevis 2 prob");
        (affinity.Name, affinity.Qualifier, affinity.Certainty).ShouldBe(("Aster laevis", "aff.", Certainty.Probable));
        var atEnd = EntryLine.Parse("smooth aster 2 cf");
        (atEnd.Name, atEnd.Qualifier, atEnd.Certainty).ShouldBe(("smooth aster", "cf.", Certainty.Tentative));
    }

    [Fact]
    public void Nothing_typed_is_an_empty_line() => EntryLine.Parse("   ").Name.ShouldBeEmpty();

    [Fact]
    public void A_sheet_offers_plants_by_the_beginnings_of_their_words()
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        sheet.Offer("aro ast 1.5 bud").ShouldSatisfyAllConditions(o => o.Meant.ShouldBe(0),
            o => o.All[0].Taxon.ScientificName.ShouldBe(Flora.Aromatic));
        sheet.Offer("a").All.ShouldBeEmpty();
    }

    [Fact]
    public void A_line_in_square_feet_is_kept_in_square_metres()
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        // 10.7639 ft² are a square metre (international foot, 0.3048 m).
        sheet.Draft("wild bergamot 10.763910416709722", Flora.Named(Flora.Bergamot), customary: true).Cover!.Value.ShouldBe(1, 1e-12);
        sheet.Draft("wild bergamot 2", Flora.Named(Flora.Bergamot), customary: false).Cover.ShouldBe(2);
        sheet.Draft("wild bergamot 3x", Flora.Named(Flora.Bergamot), customary: true).Cover!.Value.ShouldBe(3 * 0.866, 1e-12);
    }

    [Fact]
    public void An_exact_scientific_name_or_synonym_needs_no_choosing_and_an_unknown_name_is_kept_as_typed()
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        sheet.Draft("Aster cf. laevis 2", null, false).Taxon!.ScientificName.ShouldBe(Flora.Smooth);
        var unknown = sheet.Draft("Planta ignota 2", null, false);
        unknown.Taxon.ShouldBeNull();
        unknown.Typed.ShouldBe("Planta ignota");
        unknown.Check(Garden.Today, Garden.Today, 10, 100).ShouldHaveSingleItem().Message.ShouldContain("“Planta ignota”");
    }

    [Fact]
    public void A_word_counts_for_its_own_line_only()
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        sheet.Add(sheet.Draft("Monarda fistulosa 1 self tent", null, false));
        var next = sheet.Draft("Symphyotrichum laeve 1", null, false);
        (next.Origin, next.Certainty).ShouldBe((null, null));
        (KnownPlanting.OriginOf(next, null), KnownPlanting.CertaintyOf(next, null)).ShouldBe((Origin.Planted, Certainty.Certain));
    }

    [Fact]
    public void Every_step_can_be_taken_back()
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        sheet.CanUndo.ShouldBeFalse();
        sheet.Undo();
        var (first, second) = (Garden.Line(Flora.Smooth, 1), Garden.Line(Flora.Bergamot, 2));
        sheet.Add(first);
        sheet.Add(second);
        sheet.Replace(0, first with { CoverSquareMetres = 9 });
        sheet.Remove(1);
        sheet.Lines.ShouldBe([first with { CoverSquareMetres = 9 }]);
        sheet.Undo();
        sheet.Undo();
        sheet.Lines.ShouldBe([first, second]);
        sheet.Undo();
        sheet.Undo();
        sheet.Lines.ShouldBeEmpty();
        sheet.CanUndo.ShouldBeFalse();
    }

    [Fact]
    public void A_line_the_browser_kept_comes_back_as_it_was()
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        var line = sheet.Draft("Aster cf. laevis 2 bud self", null, false);
        sheet.Renew(KeptLine.Of(line)).ShouldBe(line);
        sheet.Renew(KeptLine.Of(line) with { Name = "Gone from the catalogue" }).Taxon.ShouldBeNull();
    }

    [Theory]
    [InlineData("wild bergamot 0,3", 0.3, null, null)]
    [InlineData("wild bergamot 0,3m2", 0.3, null, null)]
    [InlineData("wild bergamot 25%", null, null, 25.0)]
    [InlineData("wild bergamot 12,5 %", null, null, 12.5)]
    [InlineData("wild bergamot 12 x", null, 12, null)]
    [InlineData("wild bergamot 3 plants", null, 3, null)]
    [InlineData("wild bergamot 2.5 3 stems fl", 2.5, 3, null)]
    public void Covers_and_counts_are_read_as_people_write_them(string typed, double? cover, int? count, double? percent)
    {
        var line = EntryLine.Parse(typed);
        (line.Name, line.Cover, line.Count, line.Percent, line.Unclear).ShouldBe(("wild bergamot", cover, count, percent, ""));
    }

    [Theory]
    [InlineData("wild bergamot 2 6", "2 6")]
    [InlineData("wild bergamot 1 2 3", "1 2 3")]
    [InlineData("wild bergamot 1,200", "1,200")]
    [InlineData("wild bergamot 2 25%", "2 25%")]
    public void A_figure_that_can_be_read_two_ways_is_asked_about(string typed, string unclear)
    {
        EntryLine.Parse(typed).ShouldSatisfyAllConditions(l => l.Name.ShouldBe("wild bergamot"), l => l.Unclear.ShouldBe(unclear));
        var draft = new EntrySheet(new NameIndex(Flora.All)).Draft(typed, null, false);
        draft.Check(Garden.Today, Garden.Today, 10_000, 20_000).ShouldHaveSingleItem().Message.ShouldContain("can be read in two ways");
    }

    [Theory]
    [InlineData("finished flowering", 7)]
    [InlineData("finished", 7)]
    [InlineData("seed ripe", 8)]
    [InlineData("senescing", 9)]
    [InlineData("dormant", 9)]
    [InlineData("in flower", 6)]
    public void A_stage_may_be_said_in_more_words_and_needs_no_cover_where_the_plant_is_known(string words, int stage)
    {
        var draft = new EntrySheet(new NameIndex(Flora.All)).Draft($"wild bergamot {words}", null, false);
        (draft.Taxon?.ScientificName, draft.GrowthStage).ShouldBe((Flora.Bergamot, stage));
        draft.Check(Garden.Today, Garden.Today, 10, 100, knownSquareMetres: 2.5).ShouldBeEmpty();
        draft.Check(Garden.Today, Garden.Today, 10, 100).ShouldHaveSingleItem().Field.ShouldBe("cover");
    }

    [Theory]
    [InlineData("wild bergamot gone", Finding.Ended)]
    [InlineData("wild bergamot 0", Finding.Ended)]
    [InlineData("wild bergamot dead", Finding.Died)]
    [InlineData("wild bergamot nf", Finding.NotFound)]
    [InlineData("wild bergamot not found", Finding.NotFound)]
    public void Ended_dead_and_not_found_are_different_words(string typed, Finding finding)
    {
        var draft = new EntrySheet(new NameIndex(Flora.All)).Draft(typed, null, false);
        (draft.Finding, draft.Cover).ShouldBe((finding, 0.0));
        draft.Check(Garden.Today, Garden.Today, 10, 100).ShouldBeEmpty();
    }

    [Theory]
    [InlineData("Monarda fistulosa ? 2")]
    [InlineData("Monarda fistulosa? 2")]
    [InlineData("Monarda fistulosa 2 ?")]
    public void A_question_mark_sets_doubt(string typed)
    {
        var draft = new EntrySheet(new NameIndex(Flora.All)).Draft(typed, null, false);
        (draft.Taxon!.ScientificName, draft.Certainty, draft.CoverSquareMetres).ShouldBe((Flora.Bergamot, Certainty.Tentative, 2));
    }

    [Theory]
    [InlineData("Aster cf. laevis 2.25 bud self")]
    [InlineData("wild bergamot 4x fl prob relict #by_the_gate")]
    [InlineData("wild bergamot 25% dormant sure planted")]
    [InlineData("wild bergamot dead tent")]
    [InlineData("Monarda sp. 3 fr")]
    [InlineData("wild bergamot 2 6 fl")]
    public void Editing_a_line_gives_back_all_it_says(string typed)
    {
        foreach (var customary in new[] { false, true })
        {
            var sheet = new EntrySheet(new NameIndex(Flora.All)) { BedSquareMetres = 16 };
            var line = sheet.Draft(typed, null, customary);
            var again = sheet.Draft(EntrySheet.Written(line, new Units(customary)), null, customary);
            again.Taxon?.DisplayName.ShouldBe(line.Taxon?.DisplayName);
            (again with { Typed = line.Typed, Taxon = line.Taxon, CoverSquareMetres = line.CoverSquareMetres }).ShouldBe(line);
            (again.CoverSquareMetres ?? 0).ShouldBe(line.CoverSquareMetres ?? 0, 1e-6);
        }
    }

    [Theory]
    [InlineData(15, 10, 1.5)]
    [InlineData(150, 10, 1.5)]
    [InlineData(1500, 10, null)]
    public void A_slipped_decimal_point_is_offered_mended(double cover, double room, double? corrected) =>
    PlantingDraft.Slip(cover, room).ShouldBe(corrected);
}
