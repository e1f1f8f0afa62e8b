using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Csv;
using CommonGround.Interchange.Names;

namespace CommonGround.DemoData;

/// <summary>The unwanted plants: ninety places, and how each came to be known.</summary>
internal sealed class Invasions(Palette palette, IReadOnlyList<Yard> yards)
{
    private const int LastYear = 2026;
    private const string RoadsideBlock = "Coopers to Wheelwright";
    private static readonly DateOnly LastDay = new(LastYear, 8, 18);
    private readonly List<InfestationRow> rows = [];

    public List<InfestationRow> Record()
    {
        Honeysuckle();
        Mustard();
        Parsnip();
        Others();
        return [.. rows.OrderBy(r => r.ObservedOn).ThenBy(r => r.Yard, StringComparer.Ordinal).ThenBy(r => r.Name.Name,
            StringComparer.Ordinal)];
    }

    /// <summary>Amur honeysuckle spreads from the untended lot at the end of Coopers Row: the farther, the later and the less.</summary>
    private void Honeysuckle()
    {
        const int Places = 30;
        var lot = yards.First(y => y.Block.Street == StreetPlan.Coopers);
        var nearest = yards.Select(y => (Yard: y, Distance: y.At.DistanceTo(lot.At), Chance: new Chance($"honeysuckle {y.Code}")))
            .Select(y => (y.Yard, y.Distance, y.Chance, Rank: y.Distance * y.Chance.Between(0.7, 1.5))).OrderBy(y => y.Rank).Take(Places)
            .ToList();
        foreach (var (yard, distance, chance, rank) in nearest)
        {
            var first = Math.Min(LastYear, 2021 + (int)(rank / 48));
            var area = distance < 1 ? 64 : Math.Max(0.6, 26 * Math.Exp(-distance / 95) * chance.Between(0.7, 1.3));
            Follow(yard.Code, "", "Lonicera maackii", first, Math.Min(area, yard.Area * 0.15), chance.Between(35, 80), (5, 20),
                distance < 1 ? "untended lot, fruiting thicket along the fence" : "", chance);
        }
    }

    private void Mustard()
    {
        const int Places = 26;
        foreach (var yard in new Chance("mustard").Shuffled(yards.Where(y => y.Light != Light.FullSun)).Take(Places))
        {
            var chance = new Chance($"mustard {yard.Code}");
            Follow(yard.Code, "", "Alliaria petiolata", chance.Whole(2021, 2025), chance.Between(0.5, yard.Light == Light.Shade ? 18 : 7),
                chance.Between(10, 60), (5, 9), "", chance);
        }
    }

    private void Parsnip()
    {
        const int Places = 13;
        const string Caution = "sap burns skin in sunlight; gloves and long sleeves";
        foreach (var yard in new Chance("parsnip").Shuffled(yards.Where(y => y.Block.Street == StreetPlan.Millrace)).Take(Places))
        {
            var chance = new Chance($"parsnip {yard.Code}");
            Follow(yard.Code, "", "Pastinaca sativa", chance.Whole(2021, 2025), chance.Between(0.8, 9), chance.Between(10, 45), (6, 20),
                chance.Happens(0.4) ? Caution : "", chance);
        }
        Follow("", RoadsideBlock, "Pastinaca sativa", 2021, 46, 35, (6, 22), Caution, new Chance("parsnip roadside"));
    }

    private void Others()
    {
        (string Name, int Places, double Most, (int Month, int Day) Seen)[] others =
        [
            ("Rhamnus cathartica", 7, 12, (6, 4)), ("Cirsium arvense", 4, 5, (6, 25)), ("Hesperis matronalis", 3, 6, (5, 27)),
                ("Celastrus orbiculatus", 2, 8, (6, 12)),
            ("Reynoutria japonica", 1, 11, (7, 24)),
        ];
        foreach (var (name, places, most, seen) in others)
        {
            foreach (var yard in new Chance(name).Shuffled(yards.Where(y => y.Code != Yards.OldPrairieYard
                && palette.Named(name).Light.Contains(y.Light))).Take(places))
            {
                var chance = new Chance($"{name} {yard.Code}");
                Follow(yard.Code, "", name, chance.Whole(2021, 2025), chance.Between(0.5, most), chance.Between(15, 70), seen, "", chance);
            }
        }
        Follow("", RoadsideBlock, "Phragmites australis", 2022, 38, 70, (7, 30), "at the edge of the pond", new Chance("reed"));
        Follow("", RoadsideBlock, "Dipsacus laciniatus", 2023, 17, 25, (7, 16), "", new Chance("teasel"));
        Follow("", RoadsideBlock, "Lythrum salicaria", 2024, 6, 20, (7, 21), "at the edge of the pond", new Chance("loosestrife"));
        var closed = yards.First(y => y.Code == Yards.OldPrairieYard);
        rows.Add(new InfestationRow(0, closed.Code, "", new TaxonName("Melilotus albus", ""), new DateOnly(2021, 7, 3), 3, 20, 6, ""));
        rows.Add(new InfestationRow(0, closed.Code, "", new TaxonName("Melilotus albus", ""), new DateOnly(2024, 7, 8), 0, null, null,
            "pulled three years running; none left"));
    }

    /// <summary>Records of one place: it grows, in some places it is worked on and shrinks again.</summary>
    private void Follow(string yard, string block, string name, int first, double area, double cover, (int Month, int Day) seen,
        string remarks, Chance chance)
    {
        var taxon = palette.Named(name);
        var isWorkedOn = chance.Happens(0.25);
        for (var year = first; year <= LastYear; year++)
        {
            if (year != first && year != LastYear && !chance.Happens(0.4)) continue;
            if (year == LastYear && year != first && chance.Happens(0.15)) break;
            var day = new DateOnly(year, seen.Month, seen.Day).AddDays(chance.Whole(-4, 9));
            if (day > LastDay) day = LastDay;
            var share = isWorkedOn && year > 2024 ? 0.4 : (year - first + 1.5) / (LastYear - first + 1.5);
            var inFlower = taxon.Bloom?.Contains(HalfMonth.Of(day)) == true;
            rows.Add(new InfestationRow(0, yard, block, new TaxonName(name, ""), day, Math.Max(0.2, Math.Round(area * share, 1)),
                Math.Round(cover), chance.Happens(0.1) ? null : inFlower ? 6 : taxon.Bloom is { } b && HalfMonth.Of(day) > b.End ? 7 : 3,
                isWorkedOn && year > 2024 ? "cut back by the work party" : year == first ? remarks : ""));
        }
    }
}
