using System.Text;
using FsCheck.Xunit;

namespace CommonGround.Interchange.Tests;

/// <summary>Whatever bytes somebody brings, reading ends with a result and never with an exception.</summary>
public class MalformedFileTests
{
    private static readonly byte[][] Sound =
    [
        Encoding.UTF8.GetBytes(TestFiles.PlacesHeader + "\r\n" + TestFiles.GoodPlace + "\r\n"),
        Encoding.UTF8.GetBytes(TestFiles.BedsHeader + "\nKI-01,front,12.5,2021-05-01,full_sun,dry\n"),
        Encoding.UTF8.GetBytes(TestFiles.SightingsHeader + "\n" + TestFiles.GoodSighting + "\"said \"\"hello\"\",\r\ntwice\"\n"
            + TestFiles.GoodSighting + "\n"),
        Encoding.UTF8.GetBytes(TestFiles.InfestationsHeader + "\n" + TestFiles.GoodInfestation + "\n"),
        "date,rain_mm\n2026-05-01,3.5\n2026-05-02,0\n"u8.ToArray(),
        "date,tmin_c,tmax_c\n2026-05-01,3.5,14\n"u8.ToArray(),
        "scientific_name,nativity,life_form,bloom_start,bloom_end,synonyms\nAsclepias × syriaca,native,forb,11,14,A|B c\n"u8.ToArray(),
        """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"street":"K","block":"A"},"geometry":{"type":"Polygon","coordinates":[[[100,0],[101,0],[101,1],[100,0]]]}}]}"""u8.ToArray(),
    ];

    private static readonly byte[] Troublesome = [0, (byte)'"', (byte)',', (byte)'\r', (byte)'\n', (byte)'\'', (byte)';', (byte)'-',
        (byte)'9', (byte)'[', (byte)'{', (byte)'\\', 0xC3, 0xEF, 0xFF];

    private static void ShouldEndWithAResult(byte[] bytes)
    {
        var file = ImportFile.Read("brought.csv", bytes);
        if (file.Kind == ImportKind.Unrecognised) file.Errors.ShouldNotBeEmpty();
        foreach (var error in file.Errors)
        {
            error.What.ShouldNotBeNullOrWhiteSpace();
            error.HowToCorrect.ShouldNotBeNullOrWhiteSpace();
            error.Value.Length.ShouldBeLessThanOrEqualTo(60);
        }
    }

    [Property(MaxTest = 1000)]
    public void Random_bytes_never_throw(byte[]? bytes) => ShouldEndWithAResult(bytes ?? []);

    [Property(MaxTest = 500)]
    public void Random_text_under_a_sound_header_never_throws(string? text, byte kind)
    {
        var sound = Encoding.UTF8.GetString(Sound[kind % Sound.Length]);
        ShouldEndWithAResult(Encoding.UTF8.GetBytes(sound[..(sound.IndexOf('\n', StringComparison.Ordinal) + 1)] + text));
    }

    [Property(MaxTest = 3000)]
    public void Sound_files_with_bytes_changed_put_in_or_cut_out_never_throw(int seed)
    {
        var chance = new Random(seed);
        var bytes = Sound[chance.Next(Sound.Length)].ToList();
        for (var changes = chance.Next(1, 8); changes > 0 && bytes.Count > 0; changes--)
        {
            var at = chance.Next(bytes.Count);
            var other = chance.Next(3) == 0 ? (byte)chance.Next(256) : Troublesome[chance.Next(Troublesome.Length)];
            switch (chance.Next(4))
            {
                case 0: bytes[at] = other; break;
                case 1: bytes.Insert(at, other); break;
                case 2: bytes.RemoveRange(at, chance.Next(1, Math.Min(20, bytes.Count - at) + 1)); break;
                default: bytes.AddRange(bytes.GetRange(at, Math.Min(20, bytes.Count - at))); break;
            }
        }
        ShouldEndWithAResult([.. bytes]);
    }

    [Fact]
    public void The_sound_files_are_sound() => Sound.ShouldAllBe(bytes => ImportFile.Read("sound", bytes).Errors.Count == 0);
}
