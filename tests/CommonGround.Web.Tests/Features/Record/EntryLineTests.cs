using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Features.Record;

namespace CommonGround.Web.Tests.Features.Record;

public class EntryLineTests
{
    [Fact]
    public void A_name_a_cover_and_short_words_are_taken_apart()
    {
        var line = EntryLine.Parse("aro ast 1.5 bud prob");
        (line.Name, line.Cover, line.Count, line.GrowthStage, line.Certainty, line.Origin, line.Qualifier).ShouldBe(("aro ast", 1.5, null, 5, Certainty.Probable, null, ""));
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
    [InlineData("wild bergamot 1 2", "wild bergamot 1", 2.0, null)]
    [InlineData("wild bergamot nan", "wild bergamot nan", null, null)]
    [InlineData("wild bergamot infinity", "wild bergamot infinity", null, null)]
    public void Cover_and_count_are_read_from_the_end(string typed, string name, double? cover, int? count)
    {
        var line = EntryLine.Parse(typed);
        (line.Name, line.Cover, line.Count).ShouldBe((name, cover, count));
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
        sheet.Suggest("aro ast 1.5 bud")[0].Taxon.ScientificName.ShouldBe(Flora.Aromatic);
        sheet.Suggest("a").ShouldBeEmpty();
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
    public void The_origin_stays_as_in_the_line_before_until_another_is_given()
    {
        var sheet = new EntrySheet(new NameIndex(Flora.All));
        sheet.Draft("wild bergamot 1", null, false).Origin.ShouldBe(Origin.Planted);
        sheet.Add(sheet.Draft("Monarda fistulosa 1 self", null, false));
        sheet.Draft("Symphyotrichum laeve 1", null, false).Origin.ShouldBe(Origin.SelfSown);
        sheet.Draft("Symphyotrichum laeve 1 relict", null, false).Origin.ShouldBe(Origin.Relict);
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
    [InlineData(15, 10, 1.5)]
    [InlineData(150, 10, 1.5)]
    [InlineData(1500, 10, null)]
    public void A_slipped_decimal_point_is_offered_mended(double cover, double room, double? mended) => PlantingDraft.Slip(cover, room).ShouldBe(mended);
}
