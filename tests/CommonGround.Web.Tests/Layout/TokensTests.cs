using System.Globalization;
using CommonGround.Assets;
using CommonGround.Drawings.Pens;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Tests.Layout;

/// <summary>
/// The colours of tokens.css against published formulas: contrast by WCAG 2.2 (relative luminance, success criteria 1.4.3 and 1.4.11),
/// lightness by OKLab (Ottosson 2020, "A perceptual color space for image processing").
/// </summary>
public sealed class TokensTests
{
    public static TheoryData<string, string, string, double> Pairs()
    {
        var pairs = new TheoryData<string, string, string, double>();
        foreach (var theme in new[] { "light", "dark" })
        {
            foreach (var ground in new[] { "paper", "sheet", "paper-2" })
            {
                foreach (var text in new[] { "ink", "ink-2", "ink-3", "action", "covered", "gap", "caution", "danger" })
                {
                    pairs.Add(theme, text, ground, 4.5);
                }
            }

            pairs.Add(theme, "on-action", "action", 4.5);
            pairs.Add(theme, "caution", "caution-wash", 4.5);
            pairs.Add(theme, "danger", "danger-wash", 4.5);
            pairs.Add(theme, "gap", "gap-wash", 4.5);
            pairs.Add(theme, "focus", "paper", 3);
            pairs.Add(theme, "rule-strong", "paper", 3);
            for (var i = 0; i <= 5; i++)
            {
                pairs.Add(theme, $"on-cover-{i}", $"cover-{i}", 4.5);
            }

            for (var i = 1; i <= 5; i++)
            {
                pairs.Add(theme, $"on-press-{i}", $"press-{i}", 4.5);
            }
        }

        return pairs;
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Words_stand_out_from_their_ground(string theme, string text, string ground, double atLeast) =>
        Contrast(Colour(theme, text), Colour(theme, ground)).ShouldBeGreaterThanOrEqualTo(atLeast);

    [Fact]
    public void Outdoors_every_word_has_the_contrast_of_the_strictest_level()
    {
        // WCAG 2.2, success criterion 1.4.6 (level AAA): 7:1.
        foreach (var text in new[] { "ink", "ink-2", "ink-3", "action", "covered", "gap", "caution", "danger" })
        {
            Contrast(Colour("outdoor", text), Colour("outdoor", "paper")).ShouldBeGreaterThanOrEqualTo(7, text);
        }

        Contrast(Colour("outdoor", "on-action"), Colour("outdoor", "action")).ShouldBeGreaterThanOrEqualTo(7);
    }

    [Theory]
    [InlineData("light", Theme.Light)]
    [InlineData("dark", Theme.Dark)]
    public void Drawings_and_controls_are_in_the_colours_of_the_pages(string theme, Theme ground)
    {
        foreach (var flower in new[] { "white", "yellow", "orange", "red", "pink", "purple", "blue", "green" })
        {
            Inks.Of("f-" + flower, ground).Fill.ShouldBe(Colour(theme, "fl-" + flower), flower);
        }

        MudBlazor.Palette controls = theme == "dark" ? SiteTheme.Theme.PaletteDark : SiteTheme.Theme.PaletteLight;
        controls.Primary.Value[..7].ShouldBe(Colour(theme, "action"), StringCompareShould.IgnoreCase);
        controls.TextPrimary.Value[..7].ShouldBe(Colour(theme, "ink"), StringCompareShould.IgnoreCase);
        controls.Error.Value[..7].ShouldBe(Colour(theme, "danger"), StringCompareShould.IgnoreCase);
    }

    [Theory]
    [InlineData("light", "cover-", 0, 5, -1)]
    [InlineData("dark", "cover-", 0, 5, 1)]
    [InlineData("light", "press-", 1, 5, -1)]
    [InlineData("dark", "press-", 1, 5, 1)]
    public void The_steps_of_a_scale_go_one_way_in_lightness_so_that_grey_keeps_their_order(string theme, string name, int from, int to,
    int sign)
    {
        var lightness = Enumerable.Range(from, to - from + 1).Select(i => OkLightness(Colour(theme, $"{name}{i}"))).ToList();
        lightness.Zip(lightness.Skip(1), (a, b) => (b - a) * sign).ShouldAllBe(step => step > 0.03);
    }

    [Theory]
    [InlineData("#FFFFFF", "#000000", 21)] // WCAG 2.2: black on white is 21:1
    [InlineData("#777777", "#FFFFFF", 4.48)] // the well-known grey just under 4.5:1
    public void The_contrast_is_that_of_the_standard(string a, string b, double expected) => Contrast(a, b).ShouldBe(expected, 0.01);

    private static string Colour(string theme, string name) => Tokens(theme)[name];

    private static ColourTokens Tokens(string theme) => theme switch
    {
        "dark" => ColourTokens.Dark,
        "outdoor" => ColourTokens.Outdoor,
        _ => ColourTokens.Light
    };

    private static double Contrast(string a, string b)
    {
        var (x, y) = (Luminance(a), Luminance(b));
        return (Math.Max(x, y) + 0.05) / (Math.Min(x, y) + 0.05);
    }

    private static double Luminance(string hex)
    {
        var (r, g, b) = Linear(hex);
        return (0.2126 * r) + (0.7152 * g) + (0.0722 * b);
    }

    private static double OkLightness(string hex)
    {
        var (r, g, b) = Linear(hex);
        var l = Math.Cbrt((0.4122214708 * r) + (0.5363325363 * g) + (0.0514459929 * b));
        var m = Math.Cbrt((0.2119034982 * r) + (0.6806995451 * g) + (0.1073969566 * b));
        var s = Math.Cbrt((0.0883024619 * r) + (0.2817188376 * g) + (0.6299787005 * b));
        return (0.2104542553 * l) + (0.7936177850 * m) - (0.0040720468 * s);
    }

    private static (double R, double G, double B) Linear(string hex)
    {
        double Channel(int at)
        {
            var c = int.Parse(hex.AsSpan(at, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0;
            return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
        }

        return (Channel(1), Channel(3), Channel(5));
    }
}
