using CommonGround.Assets;
using MudBlazor;

namespace CommonGround.Web.Layout;

/// <summary>MudBlazor in our ink: its palettes are filled from the tokens of the pages.</summary>
public static class SiteTheme
{
    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = Filled(new PaletteLight(), ColourTokens.Light),
        PaletteDark = Filled(new PaletteDark(), ColourTokens.Dark),
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "4px" },
        Shadows = new Shadow { Elevation = [.. Enumerable.Repeat("none", 26)] },
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = ["Source Sans 3", "Noto Sans", "sans-serif"], FontSize = "1rem" },
            Button = new ButtonTypography { TextTransform = "none", FontWeight = "600", FontSize = "1rem" },
        },
    };

    private static T Filled<T>(T palette, ColourTokens ink)
        where T : Palette
    {
        palette.Primary = ink["action"];
        palette.Info = ink["action"];
        palette.Secondary = ink["ink-2"];
        palette.Tertiary = ink["covered"];
        palette.Success = ink["covered"];
        palette.Warning = ink["caution"];
        palette.Error = ink["danger"];
        palette.Background = ink["paper"];
        palette.Surface = ink["sheet"];
        palette.DrawerBackground = ink["sheet"];
        palette.AppbarBackground = ink["sheet"];
        palette.TextPrimary = ink["ink"];
        palette.TextSecondary = ink["ink-2"];
        palette.TextDisabled = ink["ink-3"];
        palette.LinesDefault = ink["rule"];
        palette.Divider = ink["rule"];
        palette.TableLines = ink["rule"];
        palette.LinesInputs = ink["rule-strong"];
        palette.ActionDefault = ink["ink-2"];
        palette.PrimaryContrastText = ink["on-action"];
        palette.HoverOpacity = 0.04;
        return palette;
    }
}
