using Bunit;
using CommonGround.Ecology.Phenology;
using CommonGround.Web.Features.Streets;

namespace CommonGround.Web.Tests.Features.Streets;

public class StreetTableTests
{
    [Fact]
    public async Task A_heading_sorts_and_pressed_again_turns_the_order_round()
    {
        using var garden = await LaidAsync();
        await using var screen = new Screen();
        var figures = await garden.Live.FiguresAsync(organiser: true);
        var shown = screen.Render<StreetTable>(p => p.Add(c => c.Figures, figures));
        string[] Streets() => [.. shown.FindAll("tbody th").Select(Screen.Read)];
        await Screen.Button(shown, "Street").ClickAsync();
        Streets().ShouldBe(["Adler Street", "Birch <Lane>", "Cedar Street"]);
        await Screen.Button(shown, "Native taxa").ClickAsync();
        Streets().ShouldBe(["Birch <Lane>", "Cedar Street", "Adler Street"]);
        shown.FindAll("th[aria-sort=ascending]").Select(Screen.Read).ShouldBe(["Native taxa"]);
        await Screen.Button(shown, "Native taxa").ClickAsync();
        Streets().ShouldBe(["Adler Street", "Cedar Street", "Birch <Lane>"]);
        shown.FindAll("th[aria-sort=descending]").Select(Screen.Read).ShouldBe(["Native taxa"]);
    }

    [Fact]
    public async Task A_block_is_chosen_by_its_button_and_said_in_words()
    {
        using var garden = await LaidAsync();
        await using var screen = new Screen();
        int? chosen = null;
        var figures = await garden.Live.FiguresAsync(organiser: true);
        var shown = screen.Render<StreetTable>(p => p.Add(c => c.Figures, figures).Add(c => c.OnSelect, (int at) => chosen = at));
        await Screen.Button(shown, "Adler Street, A to B: 0 of 5 late half-months covered").ClickAsync();
        figures.BlockName(chosen!.Value).ShouldBe("Adler Street, A to B");
    }

    [Fact]
    public async Task The_slider_says_its_half_month_and_hands_on_the_one_chosen()
    {
        await using var screen = new Screen();
        var (half, covered) = (15, Enumerable.Range(0, 24).Select(t => t % 9).ToArray());
        var shown = screen.Render<SeasonSlider>(p => p.Add(c => c.Half, half).Add(c => c.Covered, covered).Add(c => c.Shown, 9).Add(c => c.Season, Season.Default).Add(c => c.HalfChanged, (int to) => half = to));
        shown.Markup.ShouldContain("16–31 August: 6 of 9 blocks covered");
        var slider = shown.Find("[aria-label='Half-month shown on the map']");
        slider.GetAttribute("aria-valuetext").ShouldBe("16–31 August");
        await slider.InputAsync("17");
        half.ShouldBe(17);
        shown.Render(p => p.Add(c => c.Half, half));
        shown.Markup.ShouldContain("16–30 September: 8 of 9 blocks covered");
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        var yards = new[] { "Adler Street", "Birch <Lane>", "Cedar Street" }.SelectMany((street, s) => Enumerable.Range(1, 3).Select(i => $"{street},A to B,{s}-{i},41.5,-88.5,100\n"));
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2\n" + string.Concat(yards)),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\n0-1,f,Monarda fistulosa,2026-08-01,1\n0-2,f,Solidago rigida,2026-08-01,1\n2-1,f,Monarda fistulosa,2026-08-01,1\n"));
        return garden;
    }
}
