using System.Text;
using Xunit.Abstractions;

namespace CommonGround.Interchange.Tests;

/// <summary>Whatever bytes somebody brings, every importer ends with rows or with errors that say how to correct them. See
/// docs/fuzzing.md.</summary>
public class FuzzTests(ITestOutputHelper output)
{
    public static TheoryData<int> Kinds => [.. Enumerable.Range(0, Malformer.Sound.Length)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_spoilt_file_ends_with_a_result_and_can_be_mended(int kind)
    {
        output.WriteLine($"{Malformer.Sound[kind].Name}: {Malformer.Count} files from seed {Malformer.FirstSeed}");
        var refused = 0;
        for (var i = 0; i < Malformer.Count; i++)
        {
            var (name, bytes) = Malformer.File(Malformer.FirstSeed + i, kind);
            try
            {
                if (IsRefused(name, bytes)) refused++;
            }
            catch (Exception broken)
            {
                throw new InvalidOperationException($"Seed {Malformer.FirstSeed + i} of {name} throws.", broken);
            }
        }
        refused.ShouldBeGreaterThan(Malformer.Count / 10);
    }

    [Fact]
    public void The_sound_files_are_sound() => Malformer.Sound.Where(f => f.Name != "walk.csv")
    .SelectMany(f => ImportFile.ReadAll(f.Name, f.Bytes)).ShouldAllBe(f => f.Errors.Count == 0);

    private static bool IsRefused(string name, byte[] bytes)
    {
        var refused = false;
        foreach (var table in UploadedTable.Open(name, bytes))
        {
            var guess = table.Guess();
            var file = table.Read(guess);
            refused |= file.Errors.Count > 0;
            foreach (var error in file.Errors)
            {
                error.What.ShouldNotBeNullOrWhiteSpace();
                error.HowToCorrect.ShouldNotBeNullOrWhiteSpace();
                error.Value.Length.ShouldBeLessThanOrEqualTo(60);
            }
            // Matched against every kind, however little it fits.
            foreach (var kind in Enum.GetValues<ImportKind>()) table.Read(table.Guess(kind));
            if (table.ToCorrect(guess, file.Errors) is not { } correct) continue;
            var again = UploadedTable.Open("correct.csv", Encoding.UTF8.GetBytes(correct)).ShouldHaveSingleItem();
            again.RowCount.ShouldBe(table.RowCount, "a correction file holds every row");
        }
        foreach (var file in ImportFile.ReadAll(name, bytes)) refused |= file.Errors.Count > 0;
        return refused;
    }
}
