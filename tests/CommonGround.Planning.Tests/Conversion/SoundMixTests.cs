using System.Text.Json;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Mixes on every kind of ground, size and budget hold the ranges of shared/checks/11_mix.json, each with its source
/// there.</summary>
public class SoundMixTests
{
    private static readonly (Light Light, Moisture Moisture)[] Grounds =
    [
        (Light.FullSun, Moisture.Dry), (Light.FullSun, Moisture.Medium), (Light.FullSun, Moisture.Moist), (Light.FullSun, Moisture.Wet),
        (Light.PartShade, Moisture.Dry), (Light.PartShade, Moisture.Medium), (Light.PartShade, Moisture.Moist),
            (Light.Shade, Moisture.Dry), (Light.Shade, Moisture.Medium), (Light.Shade, Moisture.Moist),
    ];

    public static TheoryData<string> Requests() => [.. All.Keys];

    private static readonly Dictionary<string, ConversionRequest> All = Every().ToDictionary(r => r.Name, r => r.Request);

    [Theory]
    [MemberData(nameof(Requests))]
    public void A_mix_holds_every_range_that_is_published_or_usual(string name)
    {
        var request = All[name];
        var outcome = QuarryFlora.Solve(request, Effort.Quick);
        if (outcome.None is { } none)
        {
            // Money that is not enough for all of the ground is answered with less ground, and that is sound too.
            request.Budget.ShouldNotBeNull(string.Join(' ', none.Conflict));
            none.Request.ShouldNotBeNull(string.Join(' ', none.Conflict));
            none.Conflict[0].ShouldContain("is not enough for");
            // Or with more money, where it is not enough for a single sound metre.
            (none.Request.SquareMetres < request.SquareMetres || none.Request.Budget > request.Budget).ShouldBeTrue();
            request = none.Request;
            outcome = QuarryFlora.Solve(request, Effort.Quick);
        }

        var mix = outcome.Mix.ShouldNotBeNull();
        mix.Cost.ShouldBeLessThanOrEqualTo((request.Budget ?? double.MaxValue) + 1e-6);
        // Where fewer taxa suit than a period asks for, the mix itself must say so.
        var few = mix.Advice.Any(a => a.Contains("taxa in flower", StringComparison.Ordinal));
        var small = mix.Advice.Any(a => a.Contains("Few taxa suit", StringComparison.Ordinal));
        MixChecks.Fails(MixMeasures.Lines(mix), request, mix.Method, Thin(mix))
            .Where(f => !(few && f.StartsWith("period", StringComparison.Ordinal))
            && !(small && f.StartsWith("taxa-", StringComparison.Ordinal))).ShouldBeEmpty();
    }

    [Fact]
    public void There_are_at_least_sixty_requests() => All.Count.ShouldBeGreaterThanOrEqualTo(60);

    [Fact]
    public void A_mix_of_weeds_and_tall_plants_fails_many_ranges()
    {
        // What a sum of visitors alone once chose for a sunny lawn: 12 % each of fleabane, sawtooth sunflower, panicled aster, black-eyed
        // and brown-eyed Susan, rush and sedge.
        (string Name, double Seeds)[] bad = [("Helianthus grosseserratus", 5), ("Symphyotrichum lanceolatum", 5), ("Rudbeckia hirta", 5),
            ("Rudbeckia triloba", 5), ("Juncus tenuis", 6), ("Carex vulpinoidea", 6), ("Erigeron strigosus", 5)];
        var lines = bad.Select(b => QuarryFlora.Taxon(b.Name)).Zip(bad, (t, b) => new MixLine(t, t.Mix!, b.Seeds, 0, 1)).ToList();
        MixChecks.Fails(lines, QuarryFlora.Request(132), Method.Seed, thin: false).Count.ShouldBeGreaterThan(12);
    }

    private static bool Thin(ConversionMix mix) => mix.Advice.Any(a => a.Contains("thin", StringComparison.OrdinalIgnoreCase));

    private static IEnumerable<(string Name, ConversionRequest Request)> Every()
    {
        foreach (var (light, moisture) in Grounds)
        {
            foreach (var size in new[] { 3.0, 8, 20, 60, 200, 600 })
            {
                yield return ($"{light} {moisture} {size} m²", QuarryFlora.Request(size, light, moisture));
            }
        }

        foreach (var (light, moisture) in Grounds.Take(6))
        {
            yield return ($"{light} {moisture} 132 m² for 150", QuarryFlora.Request(132, light, moisture) with { Budget = 150 });
            yield return ($"{light} {moisture} 132 m² for 25", QuarryFlora.Request(132, light, moisture) with { Budget = 25 });
        }

        var sun = QuarryFlora.Request(132);
        yield return ("meadow", QuarryFlora.Request(5000) with { Method = Method.Seed });
        yield return ("seed only", sun with { Method = Method.Seed });
        yield return ("plugs only", sun with { Method = Method.Plugs });
        yield return ("up to 1.2 m", sun with { TallestMetres = 1.2 });
        yield return ("kerb to 0.6 m", QuarryFlora.Request(20) with { Kerb = true, TallestMetres = 0.6 });
        yield return ("salted kerb", QuarryFlora.Request(20) with { Kerb = true, Salt = true, TallestMetres = 0.9 });
        yield return ("steep", sun with { SlopePercent = 40 });
        yield return ("sand", QuarryFlora.Request(60, moisture: Moisture.Dry) with { SoilTexture = SoilTexture.Sand });
        yield return ("clay", sun with { SoilTexture = SoilTexture.Clay });
        yield return ("septic", sun with { Septic = true });
        yield return ("browsers", sun with { Browsers = true });
        yield return ("chewed", sun with { KeepToxicOut = true });
    }
}
