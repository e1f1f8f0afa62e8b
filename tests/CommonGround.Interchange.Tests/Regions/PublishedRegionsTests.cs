using System.Text.Json;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Regions;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Catalogue;
using CommonGround.Interchange.Tests.Catalogue;

namespace CommonGround.Interchange.Tests.Regions;

/// <summary>
/// Forty values read by hand from the published tables (CC0, US Army Engineer Research and Development Center), from the texts of the laws,
/// and worked out by Hopkins' law: shared/checks/13_regions.json.
/// </summary>
public sealed class PublishedRegionsTests
{
    private static readonly IReadOnlyList<JsonElement> Checks =
        [.. JsonDocument.Parse(File.ReadAllBytes(Path.Combine(TestFiles.Root, "shared", "checks", "13_regions.json"))).RootElement
        .GetProperty("checks").EnumerateArray()];

    public static TheoryData<int> Of(string kind) => [.. Checks.Where(c => Text(c, "kind") == kind)
        .Select(c => c.GetProperty("id").GetInt32())];

    [Theory]
    [MemberData(nameof(Of), "c_and_nativity")]
    public void A_table_is_read_as_published(int id)
    {
        var check = Check(id);
        var value = ShippedRegions.Values[Text(check, "taxon")].Tables[Text(check, "table")];
        value.Nativity.ToString().ToLowerInvariant().ShouldBe(Text(check, "nativity"));
        value.C.ShouldBe(check.GetProperty("c").ValueKind == JsonValueKind.Null ? null : check.GetProperty("c").GetDouble());
        // And so it holds in the state.
        var place = ShippedRegions.Places.Values.First(p => p.State == Text(check, "state"));
        var there = ShippedRegions.At(place).Of(ShippedCatalogue.Of(Text(check, "taxon")));
        there.Nativity.ToString().ToLowerInvariant().ShouldBe(Text(check, "nativity"));
        there.C.ShouldBe(value.C);
        there.Regional!.Table.ShouldBe(Text(check, "table"));
    }

    [Theory]
    [MemberData(nameof(Of), "spring_shift")]
    public void Spring_comes_as_Hopkins_has_it(int id)
    {
        var check = Check(id);
        var days = SpringShift.Days(Number(check, "lat_n"), Number(check, "lon_w"), Number(check, "elevation_m"));
        days.ShouldBe(Number(check, "days"), Number(check, "tolerance_days") + 1e-9);
        SpringShift.HalfMonths(days).ShouldBe(check.GetProperty("half_months").GetInt32());
        // The boxes of the states are from memory: each place of the checks lies in that of its own state.
        StateRules.Find(Text(check, "state"))!.MayHold(Number(check, "lat_n"), -Number(check, "lon_w")).ShouldBeTrue();
    }

    [Theory]
    [MemberData(nameof(Of), "window")]
    public void A_bloom_window_moves_at_each_end_by_itself(int id)
    {
        var check = Check(id);
        var place = Checks.First(c => Text(c, "kind") == "spring_shift" && Text(c, "place") == Text(check, "place"));
        var (from, to) = (Ends(check, "catalogue"), Ends(check, "shifted"));
        SpringShift.Shifted(from, Number(place, "days")).ShouldBe(to);
    }

    [Theory]
    [MemberData(nameof(Of), "law")]
    public void The_law_is_answered_in_three_ways(int id)
    {
        var check = Check(id);
        WeedLaw.Ask(ShippedRegions.Law, Text(check, "state"), Text(check, "taxon")).ShouldBe(Text(check, "listed") switch
        {
            "yes" => LawAnswer.Listed,
            "no" => LawAnswer.NotOnTheList,
            _ => LawAnswer.Unknown,
        });
    }

    [Fact]
    public void Every_check_is_of_a_kind_that_is_tested() =>
        Checks.Select(c => Text(c, "kind")).Distinct().Order().ShouldBe(["c_and_nativity", "law", "spring_shift", "window"]);

    private static JsonElement Check(int id) => Checks.Single(c => c.GetProperty("id").GetInt32() == id);

    private static string Text(JsonElement check, string name) => check.GetProperty(name).GetString()!;

    private static double Number(JsonElement check, string name) => check.GetProperty(name).GetDouble();

    private static BloomWindow Ends(JsonElement check, string name) => new(check.GetProperty(name)[0].GetInt32(),
        check.GetProperty(name)[1].GetInt32());
}
