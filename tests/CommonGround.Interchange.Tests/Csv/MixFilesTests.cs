using System.Text;
using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;

namespace CommonGround.Interchange.Tests.Csv;

/// <summary>The traits for mixes and the record of visitors that come with the program.</summary>
public class MixFilesTests
{
    [Fact]
    public void The_traits_are_read_with_the_cautious_value_and_the_other_one_beside_it()
    {
        var table = MixTraitsFile.Read("mix-attributes.csv", Seed("mix-attributes.csv"));
        table.Errors.ShouldBeEmpty();
        table.ByName.Count.ShouldBe(722);
        var bluestem = table.ByName["Andropogon gerardii"];
        (bluestem.Role, bluestem.Spread).ShouldBe((MixRole.WarmTall, Spreading.AggressiveBoth));
        bluestem.Disputed.ShouldContain(new DisputedTrait("spread", "aggressive both", "slow"));
        table.ByName["Rudbeckia hirta"].Longevity.ShouldBe(Longevity.AnnualBiennial);
        table.ByName.Values.ShouldAllBe(t => t.Basis == "from memory" || t.Basis == "read");
    }

    [Fact]
    public void The_record_of_1929_is_whole()
    {
        var (records, errors) = VisitorFile.Read(Seed("visitors", "visitors.csv"), Seed("visitors", "plants.csv"));
        errors.ShouldBeEmpty();
        // Robertson 1929 as digitised: 456 plants, 15,255 records, of which 22 name no animal to the species.
        records.Plants.Count.ShouldBe(456);
        records.Plants.Sum(p => p.Visitors.Count).ShouldBeInRange(14_900, 15_233);
        records.Visitors.Count(v => v.IsBee).ShouldBeInRange(270, 302);
        records.Visitors.Count(v => v.IsHoneyBee).ShouldBe(1);
        records.ByCurrentName["Zizia aurea"].Count.ShouldBeGreaterThan(60);
    }

    [Fact]
    public void What_cannot_be_read_is_said_with_line_and_column_and_the_rest_is_kept()
    {
        const string Header = "scientific_name,role,spread,longevity,from_seed,max_seeds_per_ft2,trade,kerb\n";
        var table = MixTraitsFile.Read("mix-attributes.csv",
            Encoding.UTF8.GetBytes(Header
                + "Flos a,seasonal,slow,long_lived,easy,1.2,usual,yes\nFlos b,queen,slow,long_lived,easy,1,usual,no\nFlos "
                + "a,seasonal,slow,long_lived,easy,1,usual,no\n"));
        table.ByName.Keys.ShouldBe(["Flos a"]);
        table.ByName["Flos a"].Kerb.ShouldBeTrue();
        table.Errors.Select(e => (e.Line, e.Column, e.Value)).ShouldBe([(3, "role", "queen"), (4, "scientific_name", "Flos a")]);
        var (records, errors) = VisitorFile.Read(Encoding.UTF8.GetBytes("number,visitor,name_1929,group,family\n1,Apis alia,,bees,\n"),
            Encoding.UTF8.GetBytes("name_1929,current_name,mapping,visitor_numbers\nFlos,Flos a,,1\nHerba,Herba a,,1|7\n"));
        records.Plants.ShouldHaveSingleItem().CurrentName.ShouldBe("Flos a");
        errors.ShouldHaveSingleItem().What.ShouldBe("There is no visitor 7.");
    }

    private static byte[] Seed(params string[] path)
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "CommonGround.sln"))) folder = folder.Parent;
        return File.ReadAllBytes(Path.Combine([folder.FullName, "seed-data", .. path]));
    }
}
