using System.Text.Json;

namespace CommonGround.Web.Tests.Commands;

/// <summary>A folder set up at a place, without a browser.</summary>
public sealed class BeginTests : IDisposable
{
    private readonly TempFolder data = new();

    private Terminal Terminal => new(data.Path);

    public void Dispose() => data.Dispose();

    [Fact]
    public async Task Begin_sets_the_place_and_measures_follow()
    {
        (await Terminal.DoAsync("begin", "--state", "MO", "--latitude", "37.21", "--longitude", "-93.29", "--elevation-feet", "1300",
            "--place", "Springfield")).ShouldContain("Missouri 2015");
        var places = Path.Combine(data.Path, "places.csv");
        await File.WriteAllTextAsync(places, "street,block,yard,latitude,longitude,yard_m2\nOak Street,A to B,N-1,37.21,-93.29,600\n");
        var beds = Path.Combine(data.Path, "beds.csv");
        await File.WriteAllTextAsync(beds, "yard,bed,area_m2\nN-1,front,20\n");
        var seen = Path.Combine(data.Path, "sightings.csv");
        await File.WriteAllTextAsync(seen,
            "yard,bed,scientific_name,observed_on,cover_m2\nN-1,front,Vernonia baldwinii,2026-08-01,1\nN-1,front,Salvia "
                + "azurea,2026-08-01,1\n");
        await Terminal.DoAsync("import", places, beds, seen, "--quiet");
        var yard = JsonDocument.Parse(await Terminal.DoAsync("measures", "--by", "yard")).RootElement[0];
        yard.GetProperty("nativeRichness").GetInt32().ShouldBe(2);
        // C of Missouri's table of 2015: 2 and 4.
        yard.GetProperty("nativeMeanC").GetDouble().ShouldBe(3, 1e-9);
    }

    [Fact]
    public async Task A_wrong_place_is_refused_before_anything_is_made()
    {
        (await Terminal.RefuseAsync("begin", "--state", "MO", "--latitude", "-93.29", "--longitude", "37.21")).ShouldContain("exchanged");
        Directory.GetFileSystemEntries(data.Path).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_new_folder_gets_the_invented_group_that_is_named()
    {
        var all = JsonDocument.Parse(await Terminal.DoAsync("measures", "--by", "neighbourhood", "--demo",
            "sycamore-hollow")).RootElement[0];
        all.GetProperty("name").GetString().ShouldBe("Sycamore Hollow");
        all.GetProperty("yards").GetInt32().ShouldBe(24);
        // All plants were chosen for being native to Missouri; two are unwanted.
        all.GetProperty("introducedRichness").GetInt32().ShouldBe(2);
        (await Terminal.RefuseAsync("begin", "--state", "MO", "--latitude", "37.21", "--longitude", "-93.29")).ShouldContain("demo");
    }
}
