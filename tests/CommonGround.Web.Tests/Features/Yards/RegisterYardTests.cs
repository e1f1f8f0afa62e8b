using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Yards;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Tests.Features.Yards;

public class RegisterYardTests
{
    [Fact]
    public async Task A_yard_is_registered_with_its_beds_and_belongs_to_who_registered_it()
    {
        using var garden = await Garden.WithOneYardAsync();
        var member = await garden.MemberOfAsync();
        var draft = await DraftAsync(garden);
        draft.Beds = [new() { Name = " Front ", AreaSquareMetres = 12.5 }, new() { Name = "Back" }];
        (draft.Household, draft.Shared, draft.SoilGroup, draft.LawnSquareMetres) = (" Household 2 ", true, SoilGroup.B, 0);
        (await garden.Register.SaveAsync(draft, member)).ShouldBeEmpty();
        var (yard, bed) = await garden.BedAsync("NO-01", "Front");
        (yard.OwnerId, yard.RegisteredOn, yard.Household, yard.Shared, yard.SoilGroup, yard.LawnSquareMetres,
            yard.Light).ShouldBe((member.MemberId, Garden.Today, "Household 2", true, SoilGroup.B, 0, Light.Shade));
        (yard.Latitude, yard.Longitude).ShouldBe((41.5, -88.5));
        bed.AreaSquareMetres.ShouldBe(12.5);
        (await garden.BedAsync("NO-01", "Back")).Bed.AreaSquareMetres.ShouldBeNull();
    }

    [Fact]
    public async Task A_visitor_registers_nothing()
    {
        using var garden = await Garden.WithOneYardAsync();
        (await garden.Register.SaveAsync(await DraftAsync(garden), Garden.Visitor)).ShouldHaveSingleItem(
            ).Message.ShouldBe("Only members and organisers register a yard.");
        (await CountAsync(garden)).ShouldBe(1);
    }

    [Fact]
    public async Task Everything_wrong_is_said_at_once_beside_its_field()
    {
        using var garden = await Garden.WithOneYardAsync();
        var problems = await garden.Register.SaveAsync(new YardDraft
        {
            Code = " ",
            Latitude = 91,
            Longitude = 181,
            AreaSquareMetres = 0,
            LawnSquareMetres = 5,
            Beds = [new() { Name = "A", AreaSquareMetres = 0 }, new() { Name = "a" }]
        }, Garden.Organiser);
        problems.Select(p => p.Field).ShouldBe(["BlockId", "Code", "Latitude", "Longitude", "AreaSquareMetres", "LawnSquareMetres",
            "Light", "Moisture", "Beds", "Beds"]);
        problems.ShouldAllBe(p => p.Message.EndsWith('.') || p.Message.EndsWith("above 0."));
        new YardDraft().Check().Select(p => p.Field).ShouldBe(["BlockId", "Code", "AreaSquareMetres", "Light", "Moisture"]);
        (await CountAsync(garden)).ShouldBe(1);
    }

    [Fact]
    public async Task Half_a_position_figures_that_are_none_and_beds_beyond_the_yard_are_refused()
    {
        using var garden = await Garden.WithOneYardAsync();
        async Task<string> FieldAsync(Action<YardDraft> change)
        {
            var draft = await DraftAsync(garden);
            change(draft);
            return (await garden.Register.SaveAsync(draft, Garden.Organiser)).Select(p => p.Field).Distinct().ShouldHaveSingleItem();
        }

        (await FieldAsync(d => d.Longitude = null)).ShouldBe("Latitude");
        (await FieldAsync(d => d.LawnSquareMetres = -1)).ShouldBe("LawnSquareMetres");
        (await FieldAsync(d => d.AreaSquareMetres = double.NaN)).ShouldBe("AreaSquareMetres");
        (await FieldAsync(d => d.LawnSquareMetres = double.NaN)).ShouldBe("LawnSquareMetres");
        (await FieldAsync(d => d.Beds = [new() { Name = "A", AreaSquareMetres = 60 },
            new() { Name = "B", AreaSquareMetres = 41 }])).ShouldBe("Beds");
        (await FieldAsync(d => d.Beds = [new() { Name = new string('b', 101) }])).ShouldBe("Beds");
        (await FieldAsync(d => d.Household = new string('h', 201))).ShouldBe("Household");
        (await FieldAsync(d => d.BlockId = 5)).ShouldBe("BlockId");
    }

    [Theory]
    [InlineData("N-1")]
    [InlineData(" n-1 ")]
    public async Task A_code_that_is_taken_is_refused_whatever_its_case(string code)
    {
        using var garden = await Garden.WithOneYardAsync();
        var draft = await DraftAsync(garden);
        draft.Code = code;
        (await garden.Register.SaveAsync(draft, Garden.Organiser)).ShouldHaveSingleItem().Field.ShouldBe("Code");
        (await CountAsync(garden)).ShouldBe(1);
    }

    [Fact]
    public async Task The_next_code_is_the_streets_letters_and_the_next_free_number()
    {
        using var garden = await Garden.LayAsync();
        await garden.StoreAsync(("places.csv",
            "street,block,yard,latitude,longitude,yard_m2\nKiln Street,A,KI-07,41.5,-88.5,100\nKiln Street,A,ki-11,41.5,-88.5,100\nKiln "
                + "Street,A,KI-x,41.5,-88.5,100\nÖ,B,Z,41.5,-88.5,100\n"));
        (await garden.Register.BlocksAsync()).Select(b => (b.Street, b.Block, b.NextCode))
            .ShouldBe([("Kiln Street", "A", "KI-12"), ("Ö", "B", "YA-01")]);
    }

    [Fact]
    public async Task Without_a_position_the_middle_of_the_block_is_taken_if_it_has_a_shape()
    {
        using var garden = await Garden.WithOneYardAsync();
        var draft = await DraftAsync(garden);
        (draft.Latitude, draft.Longitude) = (null, null);
        (await garden.Register.SaveAsync(draft, Garden.Organiser)).ShouldHaveSingleItem().Message.ShouldContain("no shape on the map yet");
        await garden.StoreAsync(("streets.geojson",
            """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"North","block":"A to B"},"geometry":{"type":"LineString","coordinates":[[-88.6,41.5],[-88.4,41.5]]}}]}"""));
        (await garden.Register.SaveAsync(draft, Garden.Organiser)).ShouldBeEmpty();
        (await garden.BedAsync("NO-01", "Front bed")).Yard.Longitude.ShouldBe(-88.5, 1e-9);
    }

    [Theory]
    [InlineData("front", "5", "name")]
    [InlineData("FRONT ", "5", "name")]
    [InlineData(" ", "5", "name")]
    [InlineData("back", "much", "area")]
    [InlineData("back", "NaN", "area")]
    [InlineData("back", "-5", "area")]
    [InlineData("back", "0", "area")]
    [InlineData("back", "101", "area")]
    public async Task A_bed_that_cannot_be_is_refused(string name, string area, string field)
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, _) = await garden.BedAsync();
        (await garden.AddBed.SaveAsync(yard.Id, name, area, Garden.Organiser)).ShouldHaveSingleItem().Field.ShouldBe(field);
    }

    [Fact]
    public async Task A_bed_is_added_in_the_units_of_who_adds_it_and_not_by_a_stranger()
    {
        using var garden = await Garden.WithOneYardAsync();
        var (yard, _) = await garden.BedAsync();
        (await garden.AddBed.SaveAsync(yard.Id, "back", "107.63910416709722", Garden.Organiser with { Customary = true })).ShouldBeEmpty();
        (await garden.BedAsync(bed: "back")).Bed.AreaSquareMetres!.Value.ShouldBe(10, 1e-9);
        (await garden.AddBed.SaveAsync(yard.Id, "side", "", Garden.Organiser)).ShouldBeEmpty();
        (await garden.BedAsync(bed: "side")).Bed.AreaSquareMetres.ShouldBeNull();
        (await garden.AddBed.SaveAsync(yard.Id, "roof", "", Garden.Visitor)).ShouldHaveSingleItem().Message.ShouldContain("not yours");
    }

    private static async Task<YardDraft> DraftAsync(Garden garden)
    {
        var block = (await garden.Register.BlocksAsync())[0];
        return new YardDraft
        {
            BlockId = block.Id,
            Code = block.NextCode,
            Latitude = 41.5,
            Longitude = -88.5,
            AreaSquareMetres = 100,
            Light = Light.Shade,
            Moisture = Moisture.Dry
        };
    }

    private static async Task<int> CountAsync(Garden garden)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        return await db.Yards.CountAsync();
    }
}
