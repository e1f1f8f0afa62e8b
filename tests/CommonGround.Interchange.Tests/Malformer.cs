using System.IO.Compression;
using System.Text;
using CommonGround.Interchange.Spreadsheets;

namespace CommonGround.Interchange.Tests;

/// <summary>Spoils sound files in the ways files are spoilt: by a slip, by a program, on the way, or on purpose. One seed, one
/// file.</summary>
internal static class Malformer
{
    /// <summary>Where COMMONGROUND_FUZZ is not set: quick enough for every run.</summary>
    private const int Few = 300;

    public const int FirstSeed = 20260819;

    public static int Count { get; } = int.TryParse(Environment.GetEnvironmentVariable("COMMONGROUND_FUZZ"), out var many) ? many : Few;

    public static readonly (string Name, byte[] Bytes)[] Sound =
    [
        ("places.csv", Text(TestFiles.PlacesHeader + "\r\n" + TestFiles.GoodPlace + "\r\n")),
        ("beds.csv", Text(TestFiles.BedsHeader + "\nKI-01,front,12.5,2021-05-01,full_sun,dry\nKI-01,back,,,,\n")),
        ("sightings.csv", Text(TestFiles.SightingsHeader + "\n" + TestFiles.GoodSighting + "\"said \"\"hello\"\",\r\ntwice\"\n"
            + TestFiles.GoodSighting + "\n")),
        ("infestations.csv", Text(TestFiles.InfestationsHeader + "\n" + TestFiles.GoodInfestation + "\n")),
        ("rain.csv", Text("date,rain_mm\n2026-05-01,3.5\n2026-05-02,0\n")),
        ("temperature.csv", Text("date,tmin_c,tmax_c\n2026-05-01,3.5,14\n")),
        ("prices.csv", Text("scientific_name,seed_per_gram,plug_each\nMonarda fistulosa,1.4,2.9\n")),
        ("plants.csv",
            Text("scientific_name,nativity,life_form,bloom_start,bloom_end,synonyms\nAsclepias × syriaca,native,forb,11,14,A|B c\n")),
        ("walk.csv", Text("Yard code,Bed,Species,Date seen,Cover (m²),Weather\nKI-01,front,Monarda fistulosa,8/4/2026,1.5,sunny\n")),
        ("streets.geojson",
            Text("""{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"K","block":"A"},"geometry":{"type":"Polygon","coordinates":[[[100,0],[101,0],[101,1],[100,0]]]}},{"type":"Feature","properties":{"street":"K","block":"B"},"geometry":{"type":"LineString","coordinates":[[100,0],[101,0]]}}]}""")),
        ("book.xlsx",
            WorkbookTests.Save(new Sheet("walk", TestFiles.SightingsHeader.Split(','),
                [["KI-01", "front", "Monarda fistulosa", new DateTime(2026, 7, 14), 1.5, null, "planted", "certain", 6, "walker 1",
                    "text"]]), new Sheet("rain", ["date", "rain_mm"], [["2026-05-01", 3]]))),
    ];

    private static readonly string[] Troubles =
    [
        "\"", "\"\"", ",", "\r", "\n", "\r\n", "'", ";", "\t", "-", "9", "[", "{", "}", "]", "\\", "\\ud800", "\0", "1e999", "-1e-999",
            "99999999999999999999999999", "NaN", "∞", "=1+1",
        "2026-02-30", "8/14/2026", "99/99/9999", "\uFEFF", "é", "𝒳", "null", "true", "-88.5", "reason", "line", "yard", "<", "&", "]]>",
            "<!DOCTYPE x [<!ENTITY a \"b\">]>", "A1048577", "XFE1", "r=\"999999999\"",
    ];

    /// <summary>The spoilt file of a seed.</summary>
    public static (string Name, byte[] Bytes) File(int seed, int? of = null)
    {
        var chance = new Random(seed);
        var (name, bytes) = Sound[of ?? chance.Next(Sound.Length)];
        if (name.EndsWith(".xlsx", StringComparison.Ordinal) && chance.Next(3) > 0) return (name, SpoilPart(bytes, chance));
        return (name, chance.Next(12) switch
        {
            0 => bytes[..chance.Next(bytes.Length)],
            1 => [.. Encoding.Unicode.Preamble.ToArray(), .. Encoding.Unicode.GetBytes(Encoding.UTF8.GetString(bytes))],
            2 => Encoding.Latin1.GetBytes(Encoding.UTF8.GetString(bytes) + "é"),
            3 => Deep(chance),
            4 => [.. bytes, .. Sound[chance.Next(Sound.Length)].Bytes],
            5 => [.. "PK\u0003\u0004"u8, .. bytes],
            _ => Spoil(bytes, chance),
        });
    }

    /// <summary>Other bytes, spoilt in the same ways.</summary>
    public static byte[] Spoil(int seed, byte[] sound) => Spoil(sound, new Random(seed));

    private static byte[] Spoil(byte[] sound, Random chance)
    {
        var bytes = sound.ToList();
        for (var changes = chance.Next(1, 8); changes > 0 && bytes.Count > 0; changes--)
        {
            var at = chance.Next(bytes.Count);
            switch (chance.Next(6))
            {
                case 0: bytes[at] = (byte)chance.Next(256); break;
                case 1: bytes[at] ^= (byte)(1 << chance.Next(8)); break;
                case 2: bytes.RemoveRange(at, chance.Next(1, Math.Min(20, bytes.Count - at) + 1)); break;
                case 3: bytes.AddRange(bytes.GetRange(at, Math.Min(60, bytes.Count - at))); break;
                default: bytes.InsertRange(at, Text(Troubles[chance.Next(Troubles.Length)])); break;
            }
        }
        return [.. bytes];
    }

    private static byte[] Deep(Random chance)
    {
        var depth = chance.Next(1, 5_000);
        return Text("{\"type\":\"FeatureCollection\",\"features\":" + new string('[', depth) + (chance.Next(2) == 0
            ? new string(']', depth) + "}" : ""));
    }

    /// <summary>Spoils one part inside a workbook and packs it again, so that the damage reaches the reader of sheets.</summary>
    private static byte[] SpoilPart(byte[] book, Random chance)
    {
        using var from = new ZipArchive(new MemoryStream(book));
        using var file = new MemoryStream();
        var spoilt = chance.Next(from.Entries.Count);
        using (var to = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            for (var i = 0; i < from.Entries.Count; i++)
            {
                if (i == spoilt && chance.Next(10) == 0) continue;
                using var part = new MemoryStream();
                using (var read = from.Entries[i].Open()) read.CopyTo(part);
                using var write = to.CreateEntry(from.Entries[i].FullName, CompressionLevel.Fastest).Open();
                write.Write(i == spoilt ? Spoil(part.ToArray(), chance) : part.ToArray());
            }
        }
        return file.ToArray();
    }

    private static byte[] Text(string text) => Encoding.UTF8.GetBytes(text);
}
