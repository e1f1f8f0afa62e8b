using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Infestations;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Storage.Plantings;
using CommonGround.Storage.Taxa;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Storage.Tests;

/// <summary>One row of every kind for a neighbourhood to stand on, with every value filled in.</summary>
internal sealed record Ground(Neighbourhood Neighbourhood, Member Member, Street Street, StreetBlock Block, Yard Yard, Bed Bed, Taxon Taxon)
{
    public static readonly DateTime Recorded = new(2026, 8, 19, 23, 59, 58, 123, DateTimeKind.Utc);

    public static async Task<Ground> LayAsync(IDbContextFactory<CommonGroundDb> database, int id = 1)
    {
        await using var db = await database.CreateDbContextAsync();
        var neighbourhood = new Neighbourhood
        {
            Id = id,
            Name = "Über dem Fluß · 川辺",
            IsDemo = true,
            DemoToday = new(2026, 8, 19),
            TimeZone = "America/Chicago",
            CatalogueFingerprint = "AB12",
            Settings = "{\"norm\":3}"
        };
        var member = new Member { NeighbourhoodId = id, Id = RowIds.Next(), Name = "Zoë Ångström", Role = Role.Member };
        var street = new Street { NeighbourhoodId = id, Id = RowIds.Next(), Name = "Rue de l’Été" };
        var block = new StreetBlock
        {
            NeighbourhoodId = id,
            Id = RowIds.Next(),
            StreetId = street.Id,
            Name = "Öst till Väst",
            Geometry = "{\"type\":\"LineString\",\"coordinates\":[[-88.5,41.8],[-88.4,41.8]]}",
            MiddleLatitude = 41.8,
            MiddleLongitude = -88.45
        };
        var yard = new Yard
        {
            NeighbourhoodId = id,
            Id = RowIds.Next(),
            BlockId = block.Id,
            Code = "ÉT-01",
            Latitude = 41.872565,
            Longitude = -88.56146,
            AreaSquareMetres = 720.25,
            LawnSquareMetres = 310.5,
            Light = Light.PartShade,
            Moisture = Moisture.Moist,
            SoilGroup = SoilGroup.C,
            Household = "Household ÉT-01",
            Shared = true,
            OwnerId = member.Id,
            RegisteredOn = new(2024, 2, 29),
        };
        var bed = new Bed
        {
            NeighbourhoodId = id,
            Id = RowIds.Next(),
            YardId = yard.Id,
            Name = "vorne 前",
            AreaSquareMetres = 12.5,
            EstablishedOn = new(2021, 5, 15),
            Light = Light.Shade,
            Moisture = Moisture.Wet
        };
        var taxon = new Taxon { NeighbourhoodId = id, Id = 7, ScientificName = "Echinacea pallida", Traits = Whole() };
        db.AddRange(neighbourhood, member, street, block, yard, bed, taxon);
        await db.SaveAsync(CommonGround.Storage.History.ChangeNote.OfProgram(id, "a test"));
        return new Ground(neighbourhood, member, street, block, yard, bed, taxon);
    }

    /// <summary>A sighting that says no more than it must.</summary>
    public Sighting BareSighting() => new()
    {
        NeighbourhoodId = 1,
        Id = RowIds.Next(),
        YardId = Yard.Id,
        BedId = Bed.Id,
        TaxonId = 7,
        ObservedOn = new(2026, 1, 1),
        RecordedAtUtc = Recorded,
    };

    public Sighting Sighting() => new()
    {
        NeighbourhoodId = Neighbourhood.Id,
        Id = RowIds.Next(),
        YardId = Yard.Id,
        BedId = Bed.Id,
        TaxonId = Taxon.Id,
        ObservedOn = new(2026, 8, 14),
        CoverSquareMetres = 1.0 / 3,
        Count = 12,
        CoverDerived = true,
        Origin = Origin.SelfSown,
        Certainty = Certainty.Tentative,
        Qualifier = "aff.",
        GrowthStage = 6,
        Observer = "walker 3",
        RecordedById = Member.Id,
        Remarks = "by the downspout, “fälls over” 🌼",
        RecordedAtUtc = Recorded,
    };

    public InfestationRecord Infestation() => new()
    {
        NeighbourhoodId = Neighbourhood.Id,
        Id = RowIds.Next(),
        BlockId = Block.Id,
        YardId = Yard.Id,
        TaxonId = Taxon.Id,
        ObservedOn = new(2026, 5, 2),
        AreaSquareMetres = 4.125,
        CoverPercent = 30.5,
        GrowthStage = 0,
        Certainty = Certainty.Probable,
        Remarks = "zurückgeschnitten",
        RecordedAtUtc = Recorded,
    };

    public Treatment Treatment() => new()
    {
        NeighbourhoodId = Neighbourhood.Id,
        Id = RowIds.Next(),
        BlockId = Block.Id,
        YardId = Yard.Id,
        TaxonId = Taxon.Id,
        TreatedOn = new(2026, 5, 3),
        Method = CommonGround.Ecology.Invasives.ControlMethod.Herbicide,
        AreaSquareMetres = 1.0 / 3,
        PersonHours = 0.75,
        Who = "Zoë",
        LabelFollowed = true,
        Qualification = "Lizenz №7",
        Remarks = "nur die Stümpfe",
        RecordedById = Member.Id,
        RecordedAtUtc = Recorded,
    };

    public CaseStep Step() => new()
    {
        NeighbourhoodId = Neighbourhood.Id,
        Id = RowIds.Next(),
        BlockId = Block.Id,
        YardId = Yard.Id,
        TaxonId = Taxon.Id,
        Kind = CaseStepKind.Moved,
        SaidOn = new(2026, 5, 4),
        Until = new(2026, 9, 16),
        Reason = "niemand frei",
        Who = "Zoë",
        RecordedById = Member.Id,
        RecordedAtUtc = Recorded,
    };

    /// <summary>A catalogue row with every trait known; the values are invented.</summary>
    public static CatalogueTaxon Whole() => new()
    {
        ScientificName = "Echinacea pallida",
        Authority = "(Nutt.) Nutt.",
        Rank = "species",
        Synonyms = ["Brauneria pallida", "Échinacée pâle"],
        CommonNames = ["pale purple coneflower", "blasser Sonnenhut"],
        Family = "Asteraceae",
        Nativity = Nativity.Native,
        C = 7.5,
        CRegion = "illinois",
        LifeForm = LifeForm.Forb,
        Duration = "perennial",
        HeightMinMetres = 0.6,
        HeightMaxMetres = 1.2,
        Light = [Light.FullSun, Light.PartShade],
        Moisture = [Moisture.Dry, Moisture.Medium],
        Bloom = new BloomWindow(22, 1),
        BloomPlace = "northern Illinois",
        FlowerColour = "pink",
        PollinatorValue = 0.75,
        PollinatorGroups = ["bees", "butterflies"],
        CaterpillarHosts = "a few",
        SeedForBirds = "finches",
        SeedsPerGram = 185.2,
        SpacingMetres = 0.45,
        Toxicity = "none known",
        Caution = "Wash your hands.",
        ImpactRank = ImpactRank.High,
        DispersalMetres = 25,
        SeedbankHalfLifeYears = 1.5,
        ControlStart = 6,
        ControlEnd = 9,
        Sources = new Dictionary<string, string>(StringComparer.Ordinal) { ["bloom"] = "from memory", ["c"] = "a table" },
    };
}
