using System.Text;
using CommonGround.Interchange;
using CommonGround.Web.Features.Import;
using Microsoft.EntityFrameworkCore;
using Xunit.Abstractions;

namespace CommonGround.Web.Tests.Features.Import;

/// <summary>Spoilt files through the whole import on a real SQLite: refused, the record is as it was. See docs/fuzzing.md.</summary>
public class ImportFuzzTests(ITestOutputHelper output)
{
    private const int FirstSeed = 20260819, Few = 300;

    private static readonly int Count = int.TryParse(Environment.GetEnvironmentVariable("COMMONGROUND_FUZZ"), out var many) ? many : Few;

    private static readonly string[] Sound =
    [
        "street,block,yard,latitude,longitude,yard_m2,lawn_m2,light,moisture,soil_group,household,shared\nNorth,A to "
            + "B,N-1,41.5,-88.5,100,60,shade,dry,A,x,yes\n",
        "yard,bed,area_m2,established_on\nN-1,front,10,2020-05-01\nN-1,back,5,\n",
        "yard,bed,scientific_name,observed_on,cover_m2,count,remarks\nN-1,front,Monarda fistulosa,2026-08-01,1,,\"a, \"\"b\"\"\"\n"
            + "N-1,front,Aster laevis,2026-08-02,,2,\n",
        "yard,block,scientific_name,observed_on,area_m2,cover_percent\nN-1,,Alliaria petiolata,2026-05-02,4,30\n,A to B,Alliaria "
            + "petiolata,2026-05-02,4,30\n",
        "date,rain_mm\n2026-05-01,12.7\n", "date,tmin_c,tmax_c\n2026-05-01,1,12.7\n",
            "scientific_name,seed_per_gram,plug_each\nMonarda fistulosa,1,2\n",
        "scientific_name,nativity,life_form\nMonarda fistulosa,native,forb\n",
        """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"North","block":"A to B"},"geometry":{"type":"LineString","coordinates":[[-88.5,41.5],[-88.4,41.5]]}}]}""",
    ];

    private static readonly string[] Troubles = ["\"", ",", "\n", "\r", "-", "9", "0", "=", "'", "\t", "é", "𝒳", "\u0001", "1e308",
        "99999999999", "2027-01-01", "0001-01-01", "KI", " ", "N-1", "[", "]", "{", "null", ",,,"];

    [Fact]
    public async Task A_refused_file_changes_nothing_and_none_breaks_the_import()
    {
        output.WriteLine($"{Count} files from seed {FirstSeed}");
        using var garden = await Garden.WithOneYardAsync();
        var import = new ImportFiles(garden.Database, garden.Neighbourhood);
        var (before, refused, stored) = (await RecordAsync(garden), 0, 0);
        for (var i = 0; i < Count; i++)
        {
            var text = Spoil(new Random(FirstSeed + i));
            var outcome = await import.RunAsync([.. ImportFile.ReadAll("spoilt.csv", Encoding.UTF8.GetBytes(text))],
                new ImportChoices(i % 2 == 0, false, Garden.Today), null, CancellationToken.None);
            var after = await RecordAsync(garden);
            if (outcome.Errors.Count > 0)
            {
                refused++;
                after.ShouldBe(before, $"seed {FirstSeed + i}");
            }
            else
            {
                stored++;
            }

            before = after;
        }

        refused.ShouldBeGreaterThan(0);
        stored.ShouldBeGreaterThan(0);
    }

    private static string Spoil(Random chance)
    {
        var text = new StringBuilder(Sound[chance.Next(Sound.Length)]);
        for (var changes = chance.Next(1, 5); changes > 0 && text.Length > 0; changes--)
        {
            var at = chance.Next(text.Length);
            switch (chance.Next(3))
            {
                case 0: text.Insert(at, Troubles[chance.Next(Troubles.Length)]); break;
                case 1: text.Remove(at, Math.Min(chance.Next(1, 6), text.Length - at)); break;
                default: text[at] = (char)chance.Next(1, 128); break;
            }
        }

        return text.ToString();
    }

    /// <summary>All that is stored, as one text.</summary>
    private static async Task<string> RecordAsync(Garden garden)
    {
        await using var db = await garden.Database.CreateDbContextAsync();
        var counts = new[] { await db.Streets.CountAsync(), await db.Blocks.CountAsync(), await db.Yards.CountAsync(),
            await db.Beds.CountAsync(), await db.Sightings.CountAsync(), await db.Infestations.CountAsync(),
                await db.WeatherDays.CountAsync(), await db.Prices.CountAsync(), await db.Taxa.CountAsync() };
        var facts = new object?[] { await db.Yards.SumAsync(y => y.AreaSquareMetres + y.Latitude),
            await db.Sightings.SumAsync(s => s.CoverSquareMetres),
                await db.Infestations.SumAsync(i => i.AreaSquareMetres + i.CoverPercent),
                    await db.WeatherDays.SumAsync(w => w.RainMillimetres + w.MaximumCelsius),
                        await db.Beds.SumAsync(b => b.AreaSquareMetres) };
        return string.Join(' ', counts) + " | " + string.Join(' ', facts);
    }
}
