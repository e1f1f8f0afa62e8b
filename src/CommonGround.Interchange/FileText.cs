using System.Buffers;
using System.Text;
using System.Text.Unicode;

namespace CommonGround.Interchange;

/// <summary>A file's bytes as text, or the one reason why they are not.</summary>
internal sealed class FileText
{
    public FileText(string fileName, byte[] content)
    {
        Name = LastPart(fileName);
        Errors = [];
        Text = Decode(content);
    }

    /// <summary>A file's name without its folder.</summary>
    public static string LastPart(string fileName) => fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..];

    public string Name { get; }

    /// <summary>The text without a byte order mark; null when <see cref="Errors"/> says why there is none.</summary>
    public string? Text { get; }
    public List<ImportError> Errors { get; }
    public bool LooksLikeJson => Text is not null && Text.AsSpan().TrimStart() is ['{' or '[', ..];

    private string? Decode(byte[] content)
    {
        if (content.Length == 0) return Refuse(0, "The file is empty.", "Save it again with at least its header line.");
        if (content is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..])
            return Refuse(1, "The file is written in UTF-16.", "Save it as UTF-8 (in a spreadsheet: \"CSV UTF-8\").");
        if (content is [(byte)'P', (byte)'K', 3, 4, ..])
            return Refuse(0, "The file is a spreadsheet or zip archive, not text.",
                "Open it in the spreadsheet and save it as \"CSV UTF-8\".");
        var nul = Array.IndexOf(content, (byte)0);
        if (nul >= 0) return Refuse(LineOf(content, nul), "The file holds bytes that are not text.",
            "Save it as UTF-8 text, comma separated.");
        var body = content.AsSpan(content is [0xEF, 0xBB, 0xBF, ..] ? 3 : 0);
        if (!Utf8.IsValid(body))
        {
            return Refuse(LineOf(content, content.Length - body.Length + FirstInvalid(body)),
                "The line holds a byte that is not UTF-8 text.",
                "Save the file as UTF-8 (in a spreadsheet: \"CSV UTF-8\").");
        }
        var text = Encoding.UTF8.GetString(body);
        return string.IsNullOrWhiteSpace(text) ? Refuse(0, "The file is empty.", "Save it again with at least its header line.") : text;
    }

    private static int FirstInvalid(ReadOnlySpan<byte> body)
    {
        var at = 0;
        while (Rune.DecodeFromUtf8(body[at..], out _, out var used) == OperationStatus.Done) at += used;
        return at;
    }

    private static int LineOf(byte[] content, int index)
    {
        var line = 1;
        for (var i = 0; i < index; i++)
        {
            if (content[i] == '\n' || (content[i] == '\r' && content[i + 1] != '\n')) line++;
        }
        return line;
    }

    private string? Refuse(int line, string what, string howToCorrect)
    {
        Errors.Add(new ImportError(Name, line, "", "", what, howToCorrect));
        return null;
    }
}
