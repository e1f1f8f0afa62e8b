using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Features.Yards;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Streets;

public class WillingYardsTests
{
    [Fact]
    public async Task A_household_that_would_plant_comes_before_those_with_more_lawn_and_only_organisers_are_told()
    {
        using var garden = await Garden.LayAsync();
        var places = string.Concat(Enumerable.Range(1, 4).Select(
            i => $"Adler Street,A to B,A-{i},41.5,-88.5,300,{20 * i},full_sun,medium,yes\n"));
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2,lawn_m2,light,moisture,shared\n" + places),
            ("sightings.csv", "yard,bed,scientific_name,observed_on,cover_m2\nA-1,f,Monarda fistulosa,2026-08-01,1\n"));
        long smallest;
        await using (var db = await garden.Database.CreateDbContextAsync())
        {
            smallest = await db.Yards.Where(y => y.Code == "A-1").Select(y => y.Id).SingleAsync();
        }

        var visitors = new VisitorQueries(new PlantKnowledge(), garden.Live);
        async Task<IReadOnlyList<LateYard>> YardsAsync(bool organiser)
        {
            var late = new LateSeasonQueries(garden.Database, garden.Live, garden.Streets, visitors);
            var who = organiser ? Garden.Organiser : Garden.Visitor;
            return (await late.BlocksAsync(await garden.Live.FiguresAsync(organiser), who)).Single().Yards;
        }

        (await YardsAsync(organiser: true)).Select(y => y.Code).ShouldBe(["A-4", "A-3", "A-2"]);
        (await garden.Keeping.ConsentAsync(smallest, new Consents(true, false, false, WouldPlant: true), Garden.Organiser)).ShouldBeEmpty();
        (await YardsAsync(organiser: true)).Select(y => (y.Code, y.Willing)).ShouldBe([("A-1", true), ("A-4", false), ("A-3", false)]);
        (await YardsAsync(organiser: false)).ShouldBeEmpty();
    }
}
