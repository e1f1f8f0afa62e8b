using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Interchange.Tests.Catalogue;

namespace CommonGround.Interchange.Tests.Regions;

/// <summary>All plants at all places.</summary>
public sealed class RegionalCatalogueTests
{
    [Fact]
    public void There_are_twelve_hundred_taxa_and_regional_values_for_each()
    {
        ShippedCatalogue.Taxa.Count.ShouldBeGreaterThanOrEqualTo(1200);
        ShippedRegions.Values.Keys.Order(StringComparer.Ordinal)
            .ShouldBe(ShippedCatalogue.Taxa.Select(t => t.ScientificName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void No_taxon_stands_anywhere_in_an_impossible_way()
    {
        var wrong = new List<string>();
        foreach (var (name, place) in ShippedRegions.Places)
        {
            var catalogue = ShippedRegions.At(place);
            foreach (var taxon in ShippedCatalogue.Taxa)
            {
                var here = catalogue.Of(taxon);
                var status = here.Regional!;
                void Wrong(bool holds, string what)
                {
                    if (holds)
                    {
                        wrong.Add($"{name}, {taxon.ScientificName}: {what}");
                    }
                }

                Wrong(here.Nativity == Nativity.Native && status.Table.Length == 0, "native by no table");
                Wrong(here.Nativity == Nativity.Native && !status.IsPresent && !status.IsBorrowed
                    && status.Basis != NativityBasis.SecondTable, "native and not present");
                Wrong(here.C is not null && here.Nativity != Nativity.Native, "C of a plant that is not native");
                Wrong(here.C is not null && here.CRegion != status.Table, "C of another table than said");
                Wrong(here.C is not null && status.LowestC is not null, "one C and a range of C");
                Wrong(status.IsBorrowed && (catalogue.Tables!.Second.Count + catalogue.Tables.Shown.Length == 0
                    || status.Table == catalogue.Tables.First), "borrowed from nowhere");
                Wrong(here.Bloom is { } b && taxon.Bloom is { } o && o.Start <= o.End && b.End < b.Start, "flowers backwards");
                Wrong((here.Bloom is null) != (taxon.Bloom is null), "flowers come or go");
                Wrong((here.ScientificName, here.HeightMaxMetres, here.Toxicity, here.Caution) != (taxon.ScientificName,
                    taxon.HeightMaxMetres, taxon.Toxicity, taxon.Caution), "a trait changed");
            }
        }

        wrong.ShouldBeEmpty();
    }

    /// <summary>Common reed: tables that do not tell the native subspecies from the introduced one call it native. The federal noxious
    /// and state lists mean the introduced one.</summary>
    [Fact]
    public void An_unwanted_plant_is_native_nowhere_by_a_table_that_does_not_tell_its_kinds_apart()
    {
        var reed = ShippedCatalogue.Taxa.Single(t => t.ScientificName == "Phragmites australis");
        var american = ShippedCatalogue.Taxa.Single(t => t.ScientificName == "Phragmites australis subsp. americanus");
        ShippedRegions.Values[reed.ScientificName].IsUndivided(ShippedRegions.Values[reed.ScientificName].Tables["illinois_2020"])
            .ShouldBeTrue();
        foreach (var (name, place) in ShippedRegions.Places)
        {
            var here = ShippedRegions.At(place).Of(reed);
            here.Nativity.ShouldBe(Nativity.Introduced, name);
            here.C.ShouldBeNull(name);
        }

        ShippedRegions.Places.Values.Select(p => ShippedRegions.At(p).Of(american).Nativity).ShouldContain(Nativity.Native);
    }

    /// <summary>The Chicago table has it under another species; the catalogue took the Illinois table's value for it.</summary>
    private const string Lumped = "Symphyotrichum firmum";

    [Fact]
    public void Northern_Illinois_is_where_the_catalogues_own_values_hold()
    {
        var catalogue = ShippedRegions.At(ShippedRegions.Places["Quarry Bend, Illinois"]);
        foreach (var taxon in ShippedCatalogue.Taxa.Where(t => !t.IsAddedForOtherStates && t.ScientificName != Lumped))
        {
            var here = catalogue.Of(taxon);
            (here.Nativity == Nativity.Native).ShouldBe(taxon.Nativity == Nativity.Native, taxon.ScientificName);
            here.C.ShouldBe(taxon.C, taxon.ScientificName);
            here.Bloom.ShouldBe(taxon.Bloom, taxon.ScientificName);
        }
    }

    // Counts of the README of the regional data, made from the tables by another program: natives among the 352 taxa added for the other
    // states.
    [Theory]
    [InlineData("MO", 213)]
    [InlineData("KS", 257)]
    [InlineData("WI", 67)]
    [InlineData("OH", 74)]
    [InlineData("MI", 45)]
    [InlineData("NE", 178)]
    public void The_new_taxa_are_native_where_they_were_counted(string state, int natives)
    {
        var table = StateRules.TablesOf(ShippedRegions.Places.Values.First(p => p.State == state))!.First;
        ShippedCatalogue.Taxa.Where(t => t.IsAddedForOtherStates)
            .Count(t => ShippedRegions.Values[t.ScientificName].Tables.GetValueOrDefault(table)?.Nativity == Nativity.Native)
            .ShouldBeInRange(natives - 4, natives + 4, "the counts of varieties differ a little");
    }

    [Fact]
    public void A_plant_of_another_region_is_not_native_here_and_one_of_here_is()
    {
        var missouri = ShippedRegions.At(ShippedRegions.Places["Springfield, Missouri"]);
        var chicago = ShippedRegions.At(ShippedRegions.Places["Quarry Bend, Illinois"]);
        // Blue sage, wingstem, western ironweed: a steward's own plants.
        foreach (var name in new[] { "Salvia azurea", "Verbesina alternifolia", "Vernonia baldwinii" })
        {
            missouri.Of(ShippedCatalogue.Of(name)).Nativity.ShouldBe(Nativity.Native, name);
        }

        chicago.Of(ShippedCatalogue.Of("Vernonia baldwinii")).Nativity.ShouldNotBe(Nativity.Native);
        missouri.Of(ShippedCatalogue.Of("Albizia julibrissin")).Nativity.ShouldBe(Nativity.Introduced);
    }

    [Fact]
    public void What_Minnesota_lacks_is_borrowed_and_says_so()
    {
        var there = ShippedRegions.At(ShippedRegions.Places["Minneapolis, Minnesota"]).Of(ShippedCatalogue.Of("Allium stellatum"));
        there.C.ShouldBe(9);
        there.CRegion.ShouldBe(RegionalTables.Wisconsin);
        there.Regional!.IsBorrowed.ShouldBeTrue();
        there.Regional.Basis.ShouldBe(NativityBasis.SecondTable);
    }

    [Fact]
    public void Outside_all_tables_there_is_no_C_and_nothing_is_called_native()
    {
        var nowhere = ShippedRegions.At(new Locality("", 35.2, -80.8));
        nowhere.Tables.ShouldBeNull();
        ShippedCatalogue.Taxa.Select(nowhere.Of).ShouldAllBe(t => t.C == null && t.Nativity != Nativity.Native);
    }

    [Theory]
    [InlineData("WI", 42.6, -87.9, true)]
    [InlineData("WI", 44.5, -88.0, false)]
    [InlineData("IN", 41.5, -87.3, true)]
    [InlineData("MI", 42.1, -86.4, true)]
    [InlineData("MO", 38.9, -92.3, false)]
    public void A_group_near_Chicago_may_choose_and_no_other(string state, double latitude, double longitude, bool may)
    {
        var own = StateRules.TablesOf(new Locality(state, latitude, longitude))!;
        own.Choices.Contains(RegionalTables.Chicago).ShouldBe(may);
        var chosen = StateRules.TablesOf(new Locality(state, latitude, longitude, Table: RegionalTables.Chicago))!;
        chosen.First.ShouldBe(may ? RegionalTables.Chicago : own.First);
    }

    [Fact]
    public void Windows_wrap_past_December_and_are_never_turned_round()
    {
        for (var start = 0; start < HalfMonth.Count; start++)
        {
            for (var end = 0; end < HalfMonth.Count; end++)
            {
                foreach (var days in new[] { -45.0, -30, -15, -7.7, 0, 7.7, 15, 30, 45 })
                {
                    var moved = SpringShift.Shifted(new BloomWindow(start, end), days);
                    (moved.End >= moved.Start || end < start).ShouldBeTrue($"{start}-{end} by {days}");
                }

                SpringShift.Shifted(new BloomWindow(start, end), 0).ShouldBe(new BloomWindow(start, end));
            }
        }
    }

    [Theory]
    [InlineData("native 11,,", "native 11")]
    [InlineData("nativ 3,,", "nativ 3")]
    [InlineData("native 3,WET,", "WET")]
    public void A_broken_cell_is_named_with_its_line(string cells, string named)
    {
        var header = "scientific_name," + string.Join(',', RegionalTables.All.Select(t => $"{t.Id},{t.Id}_wetland,{t.Id}_as"))
            + ",usda_native_states,usda_introduced_states,epa_states\n";
        var text = header + "Salvia azurea," + cells + new string(',', (RegionalTables.All.Count * 3) - 3 + 3) + "\n";
        var refused = Should.Throw<FormatException>(() => RegionalValuesFile.Read("values.csv", System.Text.Encoding.UTF8.GetBytes(text)));
        refused.Message.ShouldContain("line 2");
        refused.Message.ShouldContain(named);
    }
}
