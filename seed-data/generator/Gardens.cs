using CommonGround.Ecology.Taxa;

namespace CommonGround.DemoData;

/// <summary>Lays out the beds and plants them.</summary>
internal sealed class Gardens(Palette palette)
{
    private const int LastYear = 2026;
    private static readonly string[] BedNames = ["front", "back", "side", "strip", "fence", "rain garden"];
    private readonly List<Planting> plantings = [];
    private readonly HashSet<(string, string, string)> taken = [];
    private readonly Dictionary<Block, BlockBloom> blooms = StreetPlan.Blocks.ToDictionary(b => b, b => new BlockBloom(b));

    public List<Planting> Plant(IReadOnlyList<Yard> yards)
    {
        foreach (var yard in yards) LayBeds(yard);
        PlantOldPrairie(yards.Single(y => y.Character == Character.OldPrairie));
        foreach (var yard in yards.Where(y => y.Character != Character.OldPrairie)) PlantYard(yard);
        foreach (var block in yards.GroupBy(y => y.Block)) Complete(block.Key, [.. block]);
        SeedRain(yards);
        return plantings;
    }

    private static void LayBeds(Yard yard)
    {
        var chance = new Chance($"beds {yard.Code}");
        if (yard.Character == Character.OldPrairie)
        {
            yard.Beds.Add(new Bed("prairie north", 96, new DateOnly(1998, 5, 16), null, null));
            yard.Beds.Add(new Bed("prairie south", 84, new DateOnly(2003, 6, 7), null, null));
            yard.Beds.Add(new Bed("dry bank", 38, new DateOnly(2009, 10, 24), null, Moisture.Dry));
            yard.Beds.Add(new Bed("under the oak", 44, null, Light.PartShade, null));
            return;
        }
        var count = yard.Character switch
        {
            Character.Keen => chance.Whole(3, 5),
            Character.Sparse => chance.Whole(1, 2),
            Character.Conversion => chance.Whole(1, 3),
            _ => chance.Whole(2, 4)
        };
        foreach (var name in chance.Shuffled(BedNames).Take(count).Order(StringComparer.Ordinal)) yard.Beds.Add(LayBed(yard, name, chance));
        if (yard.Beds.Count < 5 && yard.Light != Light.FullSun && yard.Character != Character.Conversion && chance.Happens(0.3))
            yard.Beds.Add(new Bed("under the oak", Math.Round(chance.Between(22, 38), 1), null, Light.Shade, null));
    }

    private static Bed LayBed(Yard yard, string name, Chance chance)
    {
        var (low, high) = name switch
        {
            "front" => (7.0, 20.0),
            "back" => (8, 26),
            "side" => (4, 10),
            "strip" => (5, 9),
            "fence" => (4, 9),
            _ => (6, 12)
        };
        var area = Math.Round(chance.Between(low, high) * (yard.Character == Character.Keen ? 1.4 : 1), 1);
        DateOnly? day = yard.Character == Character.Conversion
            ? new DateOnly(yard.FirstYear, 4, chance.Whole(14, 30))
            : chance.Happens(0.75) ? new DateOnly(yard.FirstYear - chance.Whole(1, 5), chance.Pick<int>([(4, 1), (5, 4), (6, 2), (9, 3)]),
            chance.Whole(1, 28)) : null;
        var (light, moisture) = name switch
        {
            "strip" => ((Light?)Light.FullSun, (Moisture?)Moisture.Dry),
            "rain garden" => (null, chance.Happens(0.3) ? Moisture.Wet : Moisture.Moist),
            _ => (null, null),
        };
        return new Bed(name, area, day, light == yard.Light ? null : light, moisture == yard.Moisture ? null : moisture);
    }

    private void PlantOldPrairie(Yard yard)
    {
        var chance = new Chance("old prairie");
        foreach (var name in Palette.OldPrairie)
        {
            var taxon = palette.Named(name);
            var beds = yard.Beds.Take(3).Where(b => Palette.Suits(taxon, LightOf(yard, b), MoistureOf(yard, b))).ToList();
            if (beds.Count == 0) beds = [yard.Beds[0]];
            foreach (var bed in chance.Shuffled(beds).Take(chance.Happens(0.35) ? 2 : 1))
                Add(yard, bed, taxon, bed.Area * chance.Between(0.005, 0.035) * Habit(taxon), chance.Happens(0.3) ? Origin.SelfSown
                    : Origin.Planted, 2021, chance);
        }
        var oak = yard.Beds[3];
        Add(yard, oak, palette.Named("Quercus macrocarpa"), 19.5, Origin.Relict, 2021, chance);
        foreach (var name in new[] { "Carex pensylvanica", "Aquilegia canadensis", "Geranium maculatum", "Solidago ulmifolia",
            "Maianthemum racemosum", "Symphyotrichum shortii" })
            Add(yard, oak, palette.Named(name), chance.Between(0.8, 3), name.StartsWith("Carex", StringComparison.Ordinal) ? Origin.Relict
                : Origin.Planted, 2021, chance);
    }

    private void PlantYard(Yard yard)
    {
        var chance = new Chance($"plants {yard.Code}");
        var (low, high, fillLow, fillHigh) = yard.Character switch
        {
            Character.Keen => (20, 27, 0.6, 0.85),
            Character.Sparse => (0, 2, 0.1, 0.3),
            Character.Conversion => (12, 19, 0.1, 0.24),
            _ => (10, 18, 0.5, 0.8),
        };
        var wanted = chance.Whole(low, high);
        var totalArea = yard.Beds.Sum(b => b.Area);
        foreach (var bed in yard.Beds)
        {
            if (bed.Name == "under the oak")
                Add(yard, bed, palette.Named(chance.Pick(Palette.Relicts)), bed.Area * chance.Between(0.35, 0.55), Origin.Relict,
                    yard.FirstYear, chance);
            var here = (int)Math.Round(wanted * bed.Area / totalArea);
            Fill(yard, bed, here, bed.Area * chance.Between(fillLow, fillHigh), chance);
        }
        if (yard.Character is Character.Keen or Character.Usual && chance.Happens(0.45)) AddShrub(yard, chance);
        for (var left = yard.Character switch
        {
            Character.Sparse => chance.Whole(1, 3),
            Character.Keen => chance.Whole(0, 1),
            _ => chance.Whole(0, 2)
        }; left > 0; left--)
            AddOne(yard, Palette.Ornamentals, Origin.Planted, 0.3, 2.4, chance);
        for (var left = yard.Character == Character.Sparse ? chance.Whole(1, 3) : chance.Whole(0, 2); left > 0; left--)
            AddOne(yard, Palette.Volunteers, Origin.SelfSown, 0.05, 0.6, chance);
        if (yard.Character == Character.Sparse && yard.Beds.Find(b => b.Name is "strip" or "front" or "back") is { } grass)
            Add(yard, grass, palette.Named(chance.Pick(Palette.Turf)), grass.Free * 0.5, Origin.Planted, yard.FirstYear, chance);
    }

    private void Fill(Yard yard, Bed bed, int count, double cover, Chance chance)
    {
        var choice = palette.For(LightOf(yard, bed), MoistureOf(yard, bed));
        var chosen = new List<(CatalogueTaxon Taxon, double Weight)>();
        for (var tries = 0; chosen.Count < count && tries < 20 * count; tries++)
        {
            var taxon = chance.Pick<CatalogueTaxon>(choice);
            if (chosen.Exists(c => c.Taxon == taxon) || !blooms[yard.Block].Allows(taxon)) continue;
            blooms[yard.Block].Add(taxon);
            chosen.Add((taxon, chance.Between(0.3, 1.6) * Habit(taxon)));
        }
        var share = Math.Min(cover, bed.Free) / Math.Max(1, chosen.Sum(c => c.Weight));
        foreach (var (taxon, weight) in chosen)
        {
            var later = yard.Character == Character.Conversion ? Math.Min(LastYear - yard.FirstYear, chance.Happens(0.3) ? 1 : 0)
                : chance.Pick<int>([(0, 62), (1, 20), (2, 12), (3, 6)]);
            Add(yard, bed, taxon, weight * share, Origin.Planted, Math.Min(LastYear, yard.FirstYear + later), chance);
        }
    }

    private void AddShrub(Yard yard, Chance chance)
    {
        var bed = chance.Pick(yard.Beds);
        var choice = palette.ShrubsFor(LightOf(yard, bed), MoistureOf(yard, bed));
        if (choice.Count == 0) return;
        var shrub = chance.Pick<CatalogueTaxon>(choice);
        if (blooms[yard.Block].Allows(shrub)) Add(yard, bed, shrub, Math.Min(chance.Between(0.8, 3.2), bed.Free), Origin.Planted,
            yard.FirstYear, chance);
    }

    private void AddOne(Yard yard, string[] names, Origin origin, double low, double high, Chance chance)
    {
        var taxon = palette.Named(chance.Pick(names));
        var bed = chance.Pick(yard.Beds);
        if (blooms[yard.Block].Allows(taxon))
            Add(yard, bed, taxon, chance.Between(low, high), origin, Math.Min(LastYear, yard.FirstYear + chance.Whole(0, 2)), chance);
    }

    /// <summary>Puts in what a block needs to be in flower as long as it is meant to.</summary>
    private void Complete(Block block, List<Yard> yards)
    {
        var chance = new Chance($"complete {block.Street} {block.Name}");
        if (yards.Exists(y => y.Character != Character.Sparse)) yards = yards.FindAll(y => y.Character != Character.Sparse);
        for (var tries = 0; tries < 200 && blooms[block].Missing() is { } t; tries++)
        {
            var yard = chance.Pick(yards);
            var bed = chance.Pick(yard.Beds);
            var choice = palette.For(LightOf(yard, bed), MoistureOf(yard, bed)).Where(c => c.Item.Bloom?.Contains(t) == true
                && blooms[block].Allows(c.Item)).ToList();
            if (choice.Count > 0) Add(yard, bed, chance.Pick<CatalogueTaxon>(choice), Math.Min(bed.Area * 0.05, bed.Free), Origin.Planted,
                Math.Min(LastYear, yard.FirstYear + 1), chance);
        }
    }

    /// <summary>What seeds about in the old prairie turns up in other yards: the nearer the sooner and the more often.</summary>
    private void SeedRain(IReadOnlyList<Yard> yards)
    {
        const double Reach = 75, MetresAYear = 70;
        var old = yards.Single(y => y.Character == Character.OldPrairie);
        foreach (var yard in yards.Where(y => y != old))
        {
            var chance = new Chance($"seed rain {yard.Code}");
            var distance = yard.At.DistanceTo(old.At);
            foreach (var name in Palette.SeedAbout)
            {
                var arrives = Math.Max(yard.FirstYear, 2022 + (int)(distance / MetresAYear) + chance.Whole(0, 2));
                if (!chance.Happens(0.6 * Math.Exp(-distance / Reach)) || arrives > LastYear) continue;
                var taxon = palette.Named(name);
                var bed = chance.Pick(yard.Beds);
                if (taken.Any(t => t.Item1 == yard.Code && t.Item3 == name) || !taxon.Light.Contains(LightOf(yard, bed))
                    || !blooms[yard.Block].Allows(taxon))
                    continue;
                Add(yard, bed, taxon, chance.Between(0.08, 0.3) * (LastYear + 1 - arrives), Origin.SelfSown, arrives, chance);
            }
        }
    }

    private void Add(Yard yard, Bed bed, CatalogueTaxon taxon, double cover, Origin origin, int firstYear, Chance chance)
    {
        const double Least = 0.02;
        cover = Math.Floor(Math.Min(cover, bed.Free) * 100) / 100;
        if (cover < Least || !taken.Add((yard.Code, bed.Name, taxon.ScientificName))) return;
        bed.Take(cover);
        blooms[yard.Block].Add(taxon);
        var fails = origin == Origin.Planted && firstYear < LastYear && yard.Character is Character.Usual or Character.Sparse
            && taxon.Bloom is not { End: >= 15 } && chance.Happens(0.09);
        plantings.Add(new Planting(yard, bed, taxon, cover, origin, firstYear)
        {
            GoneIn = fails ? chance.Whole(firstYear + 1, LastYear) : null,
            Certainty = CertaintyOf(taxon, chance),
        });
    }

    /// <summary>Asters, goldenrods, sedges, violets and sunflowers are hard; most doubt is about them.</summary>
    private static Certainty CertaintyOf(CatalogueTaxon taxon, Chance chance)
    {
        var isHard = taxon.ScientificName.Split(' ')[0] is "Symphyotrichum" or "Solidago" or "Carex" or "Viola" or "Helianthus"
            or "Liatris";
        var draw = chance.Share();
        return draw < (isHard ? 0.07 : 0.008) ? Certainty.Tentative : draw < (isHard ? 0.22 : 0.06) ? Certainty.Probable
            : Certainty.Certain;
    }

    private static double Habit(CatalogueTaxon taxon) => taxon.LifeForm switch
    {
        LifeForm.Shrub => 3,
        LifeForm.Grass => 1.6,
        _ => taxon.HeightMaxMetres is > 1.4 ? 1.5 : taxon.HeightMaxMetres is < 0.4 ? 0.5 : 1,
    };

    private static Light LightOf(Yard yard, Bed bed) => bed.Light ?? yard.Light;

    private static Moisture MoistureOf(Yard yard, Bed bed) => bed.Moisture ?? yard.Moisture;
}
