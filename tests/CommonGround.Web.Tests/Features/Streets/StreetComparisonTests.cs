using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Streets;

namespace CommonGround.Web.Tests.Features.Streets;

public class StreetComparisonTests
{
    [Fact]
    public async Task The_street_that_stops_first_is_named_with_the_weeks_between()
    {
        using var garden = await LaidAsync();
        var compared = StreetComparison.Of(await garden.Live.FiguresAsync(organiser: true), ["Adler Street", "Birch Street"]);
        // Adler: bergamot, smooth and aromatic aster and goldenrod; three together August 16 (half-month 15) to October 15 (18).
        // Birch: none together three.
        compared.Streets.Select(s => s.Name).ShouldBe(["Adler Street", "Birch Street"]);
        (compared.Fullest!.Name, compared.Emptiest!.Name).ShouldBe(("Adler Street", "Birch Street"));
        compared.Headline().ShouldBe("Birch Street never has three native kinds in flower at once");
        compared.Covered(compared.Fullest).ShouldBe(4);
        compared.Lead().ShouldContain("Adler Street is covered in 4, Birch Street in 0 of 14 half-months");
        compared.InCommon.ShouldBe(1);
        // What Birch has not and Adler has late: by yards, then by name.
        var (kinds, plants) = compared.PassOn();
        kinds.ShouldBe(3);
        plants.Select(p => (p.Taxon.DisplayName, p.Yards)).ShouldBe([("smooth blue aster", 3),
            ("aromatic aster", 1), ("stiff goldenrod", 1)]);
    }

    [Fact]
    public async Task Everybody_sees_only_plants_that_three_yards_grow_and_streets_of_three_yards()
    {
        using var garden = await LaidAsync();
        var seen = StreetComparison.Of(await garden.Live.FiguresAsync(organiser: false), ["Adler Street", "Birch Street", "Cedar Street"]);
        seen.Streets.Select(s => s.Name).ShouldBe(["Adler Street", "Birch Street"]);
        seen.PassOn().Plants.ShouldHaveSingleItem().Taxon.DisplayName.ShouldBe("smooth blue aster");
        StreetComparison.Choices(await garden.Live.FiguresAsync(organiser: false)).ShouldNotContain("Cedar Street");
    }

    [Fact]
    public async Task Without_two_names_the_fullest_and_the_emptiest_are_shown_and_one_street_alone_says_so()
    {
        using var garden = await LaidAsync();
        var figures = await garden.Live.FiguresAsync(organiser: true);
        StreetComparison.Of(figures, ["No such street", "Birch Street", "Birch Street"]).Streets.Select(s => s.Name)
            .ShouldBe(["Birch Street", "Adler Street"]);
        using var empty = await Garden.LayAsync();
        var none = StreetComparison.Of(await empty.Live.FiguresAsync(organiser: true), []);
        none.Streets.Count.ShouldBeLessThan(2);
        none.Headline().ShouldBe("No two streets can be compared yet");
        none.PassOn().Plants.ShouldBeEmpty();
    }

    private static async Task<Garden> LaidAsync()
    {
        var garden = await Garden.LayAsync();
        var yards = new[] { "Adler Street", "Birch Street" }.SelectMany((street, s) => Enumerable.Range(1, 3)
            .Select(i => $"{street},A to B,{s}-{i},41.5,-88.5,100,yes\n")).Append("Cedar Street,A to B,2-1,41.5,-88.5,100,yes\n");
        string[] seen = ["0-1,f,Symphyotrichum laeve", "0-2,f,Symphyotrichum laeve", "0-3,f,Symphyotrichum laeve",
            "0-1,f,Symphyotrichum oblongifolium", "0-2,f,Solidago rigida", "0-3,f,Monarda fistulosa", "1-1,f,Monarda fistulosa"];
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\n" + string.Concat(yards)),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\n" + string.Concat(seen.Select(s => s + ",2026-08-01,1\n"))));
        return garden;
    }
}
