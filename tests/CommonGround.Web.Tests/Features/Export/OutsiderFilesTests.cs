using System.Text.Json;
using CommonGround.Interchange;
using CommonGround.Interchange.Csv;
using CommonGround.Web.Features.Export;
using CommonGround.Web.Hosting;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Export;

/// <summary>
/// Files for outsiders against the group's own list of places. Practice for generalised records: Darwin Core quick reference guide
/// (dwc.tdwg.org/terms), terms dataGeneralizations, informationWithheld, coordinateUncertaintyInMeters; that a record must share what it
/// says with several others is common practice of disclosure control.
/// </summary>
public class OutsiderFilesTests
{
    [Fact]
    public async Task None_of_the_demos_yards_is_told_apart_by_joining_the_files_with_the_list_of_places()
    {
        using var garden = await Garden.LayAsync();
        var bytes = await File.ReadAllBytesAsync(Path.Combine(SiteOptions.SeedFolder, "quarry-bend", "places.csv"));
        var places = ImportFile.Read("places.csv", bytes).Places;
        await garden.StoreAsync(("places.csv", System.Text.Encoding.UTF8.GetString(bytes)));
        var told = (await garden.Export.RowsAsync(exact: false)).Places;
        told.Count.ShouldBe(places.Count(p => p.Shared));
        told.Count.ShouldBeGreaterThan(100);
        var classes = OutsiderRows.Classes([.. places.Where(p => p.Shared).Select(p => p.YardSquareMetres)]);
        foreach (var row in told)
        {
            (row.Street, row.Block, row.Household, row.LawnSquareMetres, row.Light, row.Moisture,
                row.SoilGroup).ShouldBe(("", "", "", null, null, null, null));
            // All yards of the list that this row may be.
            places.Count(p => p.Shared == row.Shared && classes(p.YardSquareMetres) == row.YardSquareMetres)
                .ShouldBeGreaterThanOrEqualTo(3);
        }

        told.Select(t => t.Yard).Distinct().Count().ShouldBe(told.Count);
        told.Select(t => t.Yard).Intersect(places.Select(p => p.Yard)).ShouldBeEmpty();
        // The order of rows is not that of the list either.
        var order = told.Select(t => classes(t.YardSquareMetres)).ToList();
        order.ShouldNotBe(places.Where(p => p.Shared).OrderBy(p => p.Yard, StringComparer.Ordinal).Select(p => classes(p.YardSquareMetres))
            .ToList());
        var all = await garden.Export.JsonAsync(exact: false);
        foreach (var place in places)
        {
            all.ShouldNotContain($"\"{place.Yard}\"");
            all.ShouldNotContain($"\"{place.Street}\"");
        }
    }

    [Fact]
    public async Task The_offset_stays_with_the_yard_when_the_neighbourhoods_key_changes()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv", "street,block,yard,latitude,longitude,yard_m2,shared\nNorth,A,N-1,41.5,-88.5,100,yes\n"));
        var before = (await garden.Export.RowsAsync(exact: false)).Places[0];
        await using var db = await garden.Database.CreateDbContextAsync();
        await db.Neighbourhoods.ExecuteUpdateAsync(set => set.SetProperty(n => n.OffsetKey, PlaceOffset.NewKey()));
        var after = (await garden.Export.RowsAsync(exact: false)).Places[0];
        (after.Latitude, after.Longitude).ShouldBe((before.Latitude, before.Longitude));
    }

    /// <summary>The first class holds one yard and the last one too: each is told with its neighbours.</summary>
    [Fact]
    public void A_class_holds_three_yards_or_is_one_with_the_next()
    {
        double[] areas = [100, 200, 210, 220, 600, 700, 800, 5000];
        var classes = OutsiderRows.Classes(areas);
        areas.Select(classes).ShouldBe([125, 125, 125, 125, 375, 375, 375, 375]);
        OutsiderRows.Classes([100])(100).ShouldBe(500);
    }
}
