using System.Net;
using CommonGround.Ecology.Identification;
using CommonGround.Web.Features.Identify;

namespace CommonGround.Web.Tests.Features.Identify;

/// <summary>Which plant it is, by address, as a reader without an account asks.</summary>
[Collection(SiteTests.Name)]
public class IdentifyPageTests(DemoSite site)
{
    private static readonly FieldCharacter[] Two =
    [
        new("leaf_place", "How do the leaves stand?", [new("opposite", "two"), new("alternate", "one")], 0.1),
        new("sap", "What comes out?", [new("milky", "white"), new("watery", "clear")], 0.1),
    ];

    [Fact]
    public async Task It_begins_with_what_everybody_sees_and_names_no_plant()
    {
        var html = await PageAsync("/identify");
        html.ShouldContain("What colour are the flowers?");
        html.ShouldContain("Nothing is asked yet.");
        html.ShouldNotContain("class=\"candidate\"");
    }

    /// <summary>Common practice, no source.</summary>
    [Fact]
    public async Task A_square_stem_opposite_leaves_and_mint_put_wild_bergamot_among_the_first()
    {
        var html = await PageAsync("/identify?a=stem_section:square&a=leaf_place:opposite&a=scent:mint&a=flower_colour:purple&a=height:hip");
        html.ShouldContain("wild bergamot");
        html.ShouldContain("take back");
        html.ShouldNotContain("Make sure that it is none of these");
    }

    [Fact]
    public async Task A_white_umbel_with_the_scent_of_carrot_shows_the_deadly_ones_whatever_their_rank()
    {
        var html = await PageAsync("/identify?a=inflorescence:umbel&a=flower_colour:white&a=scent:carrot");
        html.IndexOf("Make sure that it is none of these", StringComparison.Ordinal)
            .ShouldBeInRange(1, html.IndexOf("It may be", StringComparison.Ordinal));
        html.ShouldContain("poison hemlock");
        html.ShouldContain("water hemlock");
        html.ShouldContain("Nothing here says that a plant is safe to eat.");
    }

    [Fact]
    public async Task Answers_that_fit_nothing_and_words_that_are_none_are_said_or_left_out()
    {
        (await PageAsync("/identify?a=life:fern&a=flower_form:pea&a=sap:milky")).ShouldContain("No plant of the table shows all of this");
        (await PageAsync("/identify?a=zzz:1&a=leaf_place:zzz&no=zzz&flower=zzz")).ShouldContain("Nothing is asked yet.");
    }

    [Fact]
    public void An_address_keeps_every_answer_and_takes_back_the_one_that_is_pressed_again()
    {
        var asked = IdentifyAddress.Read(["leaf_place:opposite,zzz", "zzz:1", "leaf_place:alternate"], ["sap", "zzz"], null, Two);
        asked.Answers.ShouldHaveSingleItem().States.ShouldBe(["opposite"]);
        asked.CannotTell.ShouldBe(["sap"]);
        asked.With("leaf_place", "alternate").ShouldBe("/identify?a=leaf_place:opposite,alternate&no=sap");
        asked.With("leaf_place", "opposite").ShouldBe("/identify?no=sap");
        asked.With("sap", "milky").ShouldBe("/identify?a=leaf_place:opposite&a=sap:milky");
        asked.Without("sap").ShouldBe("/identify?a=leaf_place:opposite");
        asked.Flowering(false).ShouldBe("/identify?a=leaf_place:opposite&no=sap&flower=no");
    }

    private async Task<string> PageAsync(string path)
    {
        using var browser = site.Browser();
        var answer = await browser.GetAsync(path);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        return await answer.Content.ReadAsStringAsync();
    }
}
