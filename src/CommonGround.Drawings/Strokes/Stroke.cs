namespace CommonGround.Drawings.Strokes;

/// <summary>One mark of the pen. <paramref name="Ink"/> names what it is ("t i": a fine living line; "f-pink": a pink wash), never a
/// colour.</summary>
/// <param name="Ink">Words of <see cref="Pens.Inks"/>, parted by spaces.</param>
/// <param name="Path">The path; null for a small circle.</param>
/// <param name="Centre">Middle of a circle.</param>
/// <param name="Radius">Its radius, px; 0 for a path.</param>
public readonly record struct Stroke(string Ink, Trace? Path, P2 Centre = default, double Radius = 0)
{
    /// <summary>A line without a fill, which may be joined with the next of the same ink.</summary>
    public bool IsLine => Path is not null && Ink[0] is 't' or 'h' or 'v';
}
