using CommonGround.Drawings.Pens;
using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>A plant as the hand draws it: from its characters, or as its life form's plain silhouette where there are none.</summary>
public sealed class Likeness
{
    private readonly Characters? characters;
    private readonly Lazy<double> fit;

    private Likeness(string scientificName, string commonName, LifeForm form, double heightCm, Characters? characters, string note,
        Lazy<double>? fit = null)
    {
        (ScientificName, CommonName, Form, HeightCm, Note) = (scientificName, commonName, form, heightCm, note);
        this.characters = characters;
        this.fit = fit ?? new Lazy<double>(Fitted);
    }

    public string ScientificName { get; }

    public string CommonName { get; }

    public LifeForm Form { get; }

    /// <summary>Height of a grown plant in flower, cm.</summary>
    public double HeightCm { get; }

    /// <summary>What must be said beside the drawing; empty for a plant with characters.</summary>
    public string Note { get; }

    /// <summary>Drawn as its life form's silhouette, since nobody has described it.</summary>
    public bool IsPlain => characters is null;

    /// <summary>The row it is drawn from; null for a silhouette.</summary>
    public Characters? Characters => characters;

    /// <summary>Width of a grown plant, cm.</summary>
    public double SpreadCm => characters?.SpreadCm ?? Silhouette.SpreadCm(Form, HeightCm);

    public static Likeness Of(Characters characters)
    {
        ArgumentNullException.ThrowIfNull(characters);
        var form = characters.Form switch
        {
            "tuft" or "sod" => LifeForm.Grass,
            "fern" => LifeForm.Fern,
            "vine" => LifeForm.Vine,
            "shrub" => LifeForm.Shrub,
            "tree" or "conifer" => LifeForm.Tree,
            _ => LifeForm.Forb,
        };
        return new Likeness(characters.ScientificName, characters.CommonName, form, characters.HeightCm, characters, "");
    }

    /// <summary>The same plant under the name its catalogue gives it, so that words beside a drawing and in a table agree.</summary>
    public Likeness Called(string commonName) => string.Equals(commonName, CommonName, StringComparison.Ordinal) ? this
        : new Likeness(ScientificName, commonName, Form, HeightCm, characters, Note, fit);

    /// <summary>The plain silhouette of a taxon nobody has described.</summary>
    /// <param name="taxon">Its name, life form and height; a missing height is taken from the life form and said.</param>
    public static Likeness Plain(CatalogueTaxon taxon)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var height = taxon.HeightMinMetres is { } low && taxon.HeightMaxMetres is { } high ? (low + high) * 50
            : taxon.HeightMaxMetres * 100;
        var note = $"{taxon.DisplayName} has not been described for drawing yet: this is the plain shape of a "
            + $"{Silhouette.Word(taxon.LifeForm)}"
            + (height is null ? ", and its height is not known." : ".");
        return new Likeness(taxon.ScientificName, taxon.DisplayName, taxon.LifeForm, height ?? Silhouette.UsualHeightCm(taxon.LifeForm),
            null, note);
    }

    /// <summary>What it looks like then.</summary>
    public Stage StageAt(int half, int year) => characters is null ? Silhouette.StageAt(half) : Stage.At(characters, half, year);

    /// <summary>Draws one individual with its foot at 0, 0.</summary>
    /// <param name="half">Half-month, 0–23.</param>
    /// <param name="year">1, 2, or 3 and more for a grown plant.</param>
    /// <param name="individual">Any words; the same words draw the same plant in every half-month.</param>
    /// <param name="pxPerCm">Above 0.</param>
    /// <param name="detail">1 for a portrait, less where many stand together.</param>
    public IReadOnlyList<Stroke> Draw(int half, int year, string individual, double pxPerCm, double detail = 1) =>
        Draw(StageAt(half, year), individual, pxPerCm, detail);

    /// <summary>Draws one individual in a stage of one's choice.</summary>
    public IReadOnlyList<Stroke> Draw(Stage stage, string individual, double pxPerCm, double detail = 1)
    {
        ArgumentNullException.ThrowIfNull(stage);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(pxPerCm);
        return characters is null ? Silhouette.Draw(Form, HeightCm, SpreadCm, stage, pxPerCm)
            : Draw(stage, individual, pxPerCm, detail, fit.Value);
    }

    /// <summary>One flower, leaf or seed head by itself, its foot at 0, 0.</summary>
    /// <param name="what">flower, leaf or seed.</param>
    /// <param name="pxPerCm">Above 0.</param>
    /// <exception cref="InvalidOperationException">A silhouette has no marks.</exception>
    public IReadOnlyList<Stroke> Mark(string what, double pxPerCm)
    {
        var strokes = new List<Stroke>();
        var row = characters ?? throw new InvalidOperationException($"{ScientificName} has no characters, so no marks.");
        Plant.Mark(new Pen(strokes, 0, 0, pxPerCm, ScientificName + what) { Wobble = .5 }, row, what, "mark");
        return strokes;
    }

    private List<Stroke> Draw(Stage stage, string individual, double pxPerCm, double detail, double stretch)
    {
        var strokes = new List<Stroke>(256);
        var small = HeightCm * pxPerCm < 130;
        var pen = new Pen(strokes, 0, 0, pxPerCm, ScientificName + "|" + individual)
        {
            Fit = stretch,
            Wobble = small ? .25 : .4,
            Least = pxPerCm < .6 && detail < .5 ? 1.2 : small ? 1.75 : 1.6,
            Detail = detail,
        };
        Plant.Draw(pen, characters!, stage, individual);
        return strokes;
    }

    /// <summary>Measures how much it is stretched, so that its first picture does not have to.</summary>
    public void Prepare() => _ = characters is null ? 1 : fit.Value;

    /// <summary>How much heights are stretched so that the drawn plant is as tall as its row says: measured on a few individuals and
    /// corrected until it settles.</summary>
    private double Fitted()
    {
        var row = characters!;
        var stage = Stage.At(row, row.TallestIn, 3);
        var stretch = 1.0;
        // Roughly first, small and few; then as it is drawn.
        (int Count, double Px)[] passes = row.LeafPlace == "basal" ? [(4, 110), (6, 110), (14, 220), (14, 220)] : [(4, 110), (7, 220)];
        foreach (var (count, px) in passes)
        {
            var scale = px / HeightCm;
            var tall = Enumerable.Range(0, count).Select(i => Bounds.Of(Draw(stage, "fit" + i, scale, 1, stretch)))
                .Where(b => b is not null).Select(b => -b!.Value.Top / scale).DefaultIfEmpty(HeightCm).Average();
            stretch *= Math.Clamp(HeightCm / Math.Max(tall, 1e-6), .5, 2);
        }

        return stretch;
    }
}
