using MudBlazor;

namespace CommonGround.Web.Layout;

/// <summary>MudBlazor in our ink: the values of tokens.css as its theme wants them.</summary>
public static class SiteTheme
{
    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = new PaletteLight
        {
            Primary = "#1F4274",
            Info = "#1F4274",
            Secondary = "#464F44",
            Tertiary = "#165F38",
            Success = "#165F38",
            Warning = "#754E02",
            Error = "#922022",
            Background = "#FAF7F0",
            Surface = "#FEFDF9",
            DrawerBackground = "#FEFDF9",
            AppbarBackground = "#FEFDF9",
            TextPrimary = "#1A231C",
            TextSecondary = "#464F44",
            TextDisabled = "#5D6357",
            LinesDefault = "#CEC8BC",
            Divider = "#CEC8BC",
            TableLines = "#CEC8BC",
            LinesInputs = "#777569",
            ActionDefault = "#464F44",
            HoverOpacity = 0.04,
            PrimaryContrastText = "#FDFCF9",
        },
        PaletteDark = new PaletteDark
        {
            Primary = "#8FC4F1",
            Info = "#8FC4F1",
            Secondary = "#C0BEB4",
            Tertiary = "#7FD091",
            Success = "#7FD091",
            Warning = "#F0C967",
            Error = "#FEA09D",
            Background = "#161813",
            Surface = "#1F221C",
            DrawerBackground = "#1F221C",
            AppbarBackground = "#1F221C",
            TextPrimary = "#EFEDE4",
            TextSecondary = "#C0BEB4",
            TextDisabled = "#A4A49A",
            LinesDefault = "#454941",
            Divider = "#454941",
            TableLines = "#454941",
            LinesInputs = "#8C8D82",
            ActionDefault = "#C0BEB4",
            HoverOpacity = 0.04,
            PrimaryContrastText = "#091521",
        },
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "4px" },
        Shadows = new Shadow { Elevation = [.. Enumerable.Repeat("none", 26)] },
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = ["Source Sans 3", "Noto Sans", "sans-serif"], FontSize = "1rem" },
            Button = new ButtonTypography { TextTransform = "none", FontWeight = "600", FontSize = "1rem" },
        },
    };
}
