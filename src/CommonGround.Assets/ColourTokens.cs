using System.Text.RegularExpressions;

namespace CommonGround.Assets;

/// <summary>The one palette, read from the style sheets the pages use: MudBlazor's theme and the printed charts take their colours
/// here.</summary>
public sealed partial class ColourTokens
{
    private readonly Dictionary<string, string> colours;

    private ColourTokens(Dictionary<string, string> colours) => this.colours = colours;

    public static ColourTokens Light { get; } = new(Read("tokens.css", ":root {"));

    public static ColourTokens Dark { get; } = Over(Light, Read("dark.css", ":root {"));

    /// <summary>High contrast for bright sun.</summary>
    public static ColourTokens Outdoor { get; } = Over(Light, Read("tokens.css", "[data-theme=\"outdoor\"] {"));

    /// <summary>A colour as #RRGGBB by its token's name without the dashes, such as <c>rule-strong</c>.</summary>
    /// <exception cref="ArgumentException">No token of that name is a colour.</exception>
    public string this[string token] => !colours.TryGetValue(token, out var colour)
        ? throw new ArgumentException($"No colour is called --{token}.", nameof(token))
        : colour[0] == '#' ? colour : this[colour];

    private static ColourTokens Over(ColourTokens ground, Dictionary<string, string> own) =>
        new(ground.colours.Where(c => !own.ContainsKey(c.Key)).Concat(own).ToDictionary(StringComparer.Ordinal));

    private static Dictionary<string, string> Read(string file, string start)
    {
        using var reader = new StreamReader(typeof(ColourTokens).Assembly.GetManifestResourceStream(file)!);
        var css = reader.ReadToEnd();
        var from = css.IndexOf(start, StringComparison.Ordinal);
        return Token().Matches(css[from..css.IndexOf("\n}", from, StringComparison.Ordinal)])
            .ToDictionary(m => m.Groups["name"].Value, m => m.Groups["same"].Success ? m.Groups["same"].Value : m.Groups["colour"].Value,
            StringComparer.Ordinal);
    }

    [GeneratedRegex(@"--(?<name>[a-z0-9-]+):\s*(?:(?<colour>#[0-9A-Fa-f]{6})|var\(--(?<same>[a-z0-9-]+)\));", RegexOptions.ExplicitCapture,
        1000)]
    private static partial Regex Token();
}
