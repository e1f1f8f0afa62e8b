namespace CommonGround.Assets;

/// <summary>The font files inside this assembly, for drawing on paper. Web pages get theirs from wwwroot/lib.</summary>
public static class AssetFonts
{
    /// <summary>The bytes of a TrueType file, for example <c>Alegreya_700Bold.ttf</c>.</summary>
    /// <exception cref="ArgumentException">No font of that file name is in the assembly.</exception>
    public static byte[] Read(string fileName)
    {
        using var stream = typeof(AssetFonts).Assembly.GetManifestResourceStream(fileName)
            ?? throw new ArgumentException($"No font file {fileName} is in {typeof(AssetFonts).Assembly.GetName().Name}.",
            nameof(fileName));
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
