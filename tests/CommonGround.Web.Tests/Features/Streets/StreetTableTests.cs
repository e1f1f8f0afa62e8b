using Bunit;
using CommonGround.Ecology.Phenology;
using CommonGround.Web.Features.Streets;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;

namespace CommonGround.Web.Tests.Features.Streets;

public class StreetTableTests
{
    [Theory]
    [InlineData("name", "Adler Street|Birch <Lane>|Cedar Street", "ascending", "Street", "-name")]
    [InlineData("native", "Birch <Lane>|Cedar Street|Adler Street", "ascending", "Native kinds", "-native")]
    [InlineData("-native", "Adler Street|Cedar Street|Birch <Lane>", "descending", "Native kinds", "native")]
    public async Task A_heading_is_a_link_that_sorts_and_followed_again_turns_the_order_round(string sort, string streets, string state,
    string heading, string next)
    {
        using var garden = await LaidAsync();
        await using var screen = new Screen();
        screen.Services.AddScoped(_ => garden.Neighbourhood);
        screen.Services.GetRequiredService<NavigationManager>().NavigateTo("/streets?block=7&sort=" + sort);
        var figures = await garden.Live.FiguresAsync(organiser: true);
        var shown = screen.Render<StreetTable>(p => p.Add(c => c.Figures, figures).Add(c => c.Sort, sort));
        shown.FindAll("tbody th").Select(Screen.Read).ShouldBe(streets.Split('|'));
        var sorted = shown.FindAll($"th[aria-sort={state}]").ShouldHaveSingleItem();
        Screen.Read(sorted).ShouldBe(heading);
        sorted.QuerySelector("a")!.GetAttribute("href").ShouldBe("/streets?block=7&sort=" + next);
    }

    [Fact]
    public async Task A_block_is_chosen_by_its_link_and_said_in_words()
    {
        using var garden = await LaidAsync();
        await using var screen = new Screen();
        screen.Services.AddScoped(_ => garden.Neighbourhood);
        screen.Services.GetRequiredService<NavigationManager>().NavigateTo("/streets?sort=late");
        var figures = await garden.Live.FiguresAsync(organiser: true);
        var shown = screen.Render<StreetTable>(p => p.Add(c => c.Figures, figures));
        var link = shown.FindAll("a").Single(a => a.GetAttribute("aria-label") == "Adler Street, A to B: 0 of 5 late half-months covered");
        var block = figures.Matrix.Blocks.Single(b => figures.BlockName(figures.Matrix.Blocks.ToList().IndexOf(b))
            == "Adler Street, A to B").BlockId;
        link.GetAttribute("href").ShouldBe($"/streets?sort=late&block={block}");
    }

    [Fact]
    public async Task The_slider_says_its_half_month_and_asks_for_another_beside_what_was_chosen()
    {
        await using var screen = new Screen();
        screen.Services.GetRequiredService<NavigationManager>().NavigateTo("/streets?block=7&show=late&half=3");
        var covered = Enumerable.Range(0, 24).Select(t => t % 9).ToArray();
        var shown = screen.Render<SeasonSlider>(p => p.Add(c => c.Half, 15).Add(c => c.Covered, covered).Add(c => c.Shown, 9)
            .Add(c => c.Season, Season.Default));
        Screen.Read(shown.Find("form")).ShouldContain("August 16–31: 6 of 9 blocks covered");
        var slider = shown.Find("[aria-label='Half-month shown on the map']");
        (slider.GetAttribute("aria-valuetext"), slider.GetAttribute("name"),
            slider.GetAttribute("value")).ShouldBe(("August 16–31", "half", "15"));
        shown.FindAll("input[type=hidden]").Select(i => (i.GetAttribute("name"), i.GetAttribute("value")))
            .ShouldBe([("show", "flower"), ("block", "7")]);
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        var yards = new[] { "Adler Street", "Birch <Lane>", "Cedar Street" }.SelectMany((street, s) => Enumerable.Range(1, 3)
            .Select(i => $"{street},A to B,{s}-{i},41.5,-88.5,100\n"));
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2\n" + string.Concat(yards)),
            ("sightings.csv",
                "yard,bed,scientific_name,observed_on,cover_m2\n0-1,f,Monarda fistulosa,2026-08-01,1\n0-2,f,Solidago rigida,2026-08-01,1\n"
                    + "2-1,f,Monarda fistulosa,2026-08-01,1\n"));
        return garden;
    }
}
