using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Pens;

/// <summary>A thing on a picture; the first lies at the back.</summary>
public abstract record Item;

/// <summary>Strokes where they stand.</summary>
/// <param name="Strokes">In px of the picture.</param>
/// <param name="Distance">0 near to 3 far.</param>
public sealed record Drawn(IReadOnlyList<Stroke> Strokes, int Distance = 0) : Item;

/// <summary>A plant drawn once and placed: its foot at X, Y, a little larger or smaller, leaning, perhaps turned round.</summary>
/// <param name="Symbol">Key of <see cref="Picture.Symbols"/>.</param>
/// <param name="X">Px.</param>
/// <param name="Y">Px, the ground.</param>
/// <param name="Scale">About 1.</param>
/// <param name="Lean">Way to the right for each px of height.</param>
/// <param name="Mirrored">Turned round.</param>
/// <param name="Distance">0 near to 3 far.</param>
public sealed record Placed(string Symbol, double X, double Y, double Scale, double Lean, bool Mirrored, int Distance) : Item;

/// <summary>Where a label's X lies in it.</summary>
public enum LabelAnchor { Start, Middle, End }

/// <summary>Words on a picture, on a halo of paper so that nothing runs through them.</summary>
/// <param name="Style">name, latin, small or head.</param>
/// <param name="X">Px.</param>
/// <param name="Y">Px of the base line.</param>
/// <param name="Text">The words.</param>
/// <param name="Anchor">Where X lies.</param>
public sealed record Label(string Style, double X, double Y, string Text, LabelAnchor Anchor = LabelAnchor.Start) : Item;

/// <summary>A drawing that both pens draw: SVG for the pages, PDF for reports.</summary>
/// <param name="Width">Px, 96 to the inch.</param>
/// <param name="Height">Px.</param>
/// <param name="Title">Its name.</param>
/// <param name="Description">What is drawn, in words.</param>
/// <param name="Items">From back to front.</param>
/// <param name="Symbols">Plants drawn once, foot at 0, 0.</param>
public sealed record Picture(
    double Width, double Height, string Title, string Description, IReadOnlyList<Item> Items, IReadOnlyDictionary<string,
        IReadOnlyList<Stroke>> Symbols);
