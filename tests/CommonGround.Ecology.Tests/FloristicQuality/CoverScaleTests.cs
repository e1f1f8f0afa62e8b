using CommonGround.Ecology.FloristicQuality;
using CommonGround.Ecology.Tests.Published;

namespace CommonGround.Ecology.Tests.FloristicQuality;

public class CoverScaleTests
{
    // FQ-012 Daubenmire (1959), from memory; FQ-013 Peet, Wentworth & White (1998) as tabulated in vegdata 1.9.18.
    [Theory(DisplayName = "Midpoints are those of Daubenmire 1959 (from memory) and Peet et al. 1998")]
    [InlineData("FQ-012")]
    [InlineData("FQ-013")]
    public void Midpoints_are_those_published(string id)
    {
        var (inputs, expected) = CheckFile.Check("02_floristic_quality.json", id);
        var scale = id == "FQ-012" ? CoverScale.Daubenmire : CoverScale.NorthCarolina;
        var codes = inputs.GetProperty("classes").EnumerateArray().Select(c => c.GetProperty("code").GetString()!).ToList();
        codes.Count.ShouldBe(scale.Count);
        codes.Select(code => CoverScale.MidpointPercent(scale, code)!.Value).ShouldBe(expected.Numbers("midpoints"));
    }

    [Fact(DisplayName = "Braun-Blanquet percentages are those of the vegdata 1.9.18 scale table (check FQ-014)")]
    public void Braun_Blanquet_percentages_are_those_published()
    {
        var (inputs, expected) = CheckFile.Check("02_floristic_quality.json", "FQ-014");
        var codes = inputs.GetProperty("codes").EnumerateArray().Select(c => c.GetString()!).ToList();
        codes.ShouldBe(CoverScale.BraunBlanquet.Select(c => c.Code));
        codes.Select(code => CoverScale.MidpointPercent(CoverScale.BraunBlanquet, code)!.Value).ShouldBe(expected.Numbers("percent"));
    }

    [Fact(DisplayName = "Class 2 of the first Braun-Blanquet scale is 15 %, the midpoint of 5 to 25 (Mueller-Dombois & Ellenberg 1974, "
        + "from memory)")]
    public void The_undivided_class_two_has_its_midpoint()
    {
        CoverScale.MidpointPercent(CoverScale.BraunBlanquetOfFiveClasses, "2").ShouldBe((5 + 25) / 2.0);
        // Classes 2 to 5 are those of Daubenmire but for the last, which is not divided at 95 %.
        CoverScale.BraunBlanquetOfFiveClasses.Skip(2).Take(3).Select(c => c.MidpointPercent)
            .ShouldBe(CoverScale.Daubenmire.Skip(1).Take(3).Select(c => c.MidpointPercent));
        CoverScale.MidpointPercent(CoverScale.BraunBlanquetOfFiveClasses, "5").ShouldBe((75 + 100) / 2.0);
    }

    [Fact(DisplayName = "Domin classes start at the break points of vegan 2.7-5, coverscale (check FQ-016)")]
    public void Domin_classes_start_at_the_published_break_points()
    {
        var (inputs, expected) = CheckFile.Check("02_floristic_quality.json", "FQ-016");
        var codes = inputs.GetProperty("codes").EnumerateArray().Select(c => c.GetString()!).ToList();
        var breaks = expected.Numbers("breaks");
        for (var i = 0; i < codes.Count; i++)
        {
            CoverScale.DominClass(i == 0 ? 0.005 : breaks[i]).ShouldBe(codes[i]);
            CoverScale.DominClass(breaks[i + 1] * 0.9999).ShouldBe(codes[i]);
        }

        CoverScale.DominClass(100).ShouldBe("X");
        CoverScale.DominClass(0).ShouldBeNull();
        Should.Throw<ArgumentOutOfRangeException>(() => CoverScale.DominClass(100.1));
    }

    [Fact]
    public void A_code_that_a_scale_does_not_have_has_no_cover() =>
        CoverScale.MidpointPercent(CoverScale.Daubenmire, "7").ShouldBeNull();
}
