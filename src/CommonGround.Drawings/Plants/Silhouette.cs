using CommonGround.Drawings.Strokes;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Drawings.Plants;

/// <summary>The plain shape of a life form, for plants nobody has described: an outline, no leaf, no flower.</summary>
internal static class Silhouette
{
    public static string Word(LifeForm form) => form switch
    {
        LifeForm.Grass or LifeForm.Turf => "grass",
        LifeForm.Sedge => "sedge",
        LifeForm.Shrub => "shrub",
        LifeForm.Tree => "tree",
        LifeForm.Vine => "vine",
        LifeForm.Fern => "fern",
        _ => "flowering plant",
    };

    public static double UsualHeightCm(LifeForm form) => form switch
    {
        LifeForm.Tree => 1200,
        LifeForm.Shrub => 200,
        LifeForm.Vine => 250,
        LifeForm.Turf => 25,
        _ => 60,
    };

    public static double SpreadCm(LifeForm form, double heightCm) =>
        heightCm * (form switch { LifeForm.Tree => .6, LifeForm.Shrub => .9, LifeForm.Vine => .25, _ => .5 });

    /// <summary>Standing from April to October, dry in winter; woody plants the whole year.</summary>
    public static Stage StageAt(int half)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(half);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(half, 23);
        return new Stage(Math.Clamp((half - 5) / 7.0, .15, 1), 1, Head.None, half is < 6 or > 19, false, 0);
    }

    public static List<Stroke> Draw(LifeForm form, double heightCm, double spreadCm, Stage stage, double pxPerCm)
    {
        var strokes = new List<Stroke>();
        var woody = form is LifeForm.Tree or LifeForm.Shrub;
        var pen = new Pen(strokes, 0, 0, pxPerCm, "plain " + form) { Dead = stage.Dead && !woody, Wobble = .2 };
        var h = heightCm * pxPerCm * (woody || stage.Dead ? 1 : stage.Growth);
        var w = spreadCm * pxPerCm / 2;
        P2 At(double x, double y) => new(x * w, -y * h);
        switch (form)
        {
            case LifeForm.Grass or LifeForm.Sedge or LifeForm.Turf:
                pen.Shape(new Trace().M(At(-.15, 0)).Q(At(-.4, .5), At(-.95, .8)).Q(At(-.4, .75), At(-.3, .95)).Q(At(-.1, .8), At(0, 1))
                    .Q(At(.1, .8), At(.3, .95)).Q(At(.4, .75), At(.95, .8)).Q(At(.4, .5), At(.15, 0)).Z());
                break;
            case LifeForm.Tree:
                pen.Line([At(0, 0), At(.01, .2), At(0, .45)], heavy: true);
                pen.Shape(new Trace()
                    .Ring([At(-.5, .34), At(-1.05, .55), At(-.8, .9), At(0, 1.08), At(.8, .9), At(1.05, .55), At(.5, .34)]));
                break;
            case LifeForm.Vine:
                pen.Line([At(0, 0), At(.6, .2), At(-.6, .4), At(.6, .6), At(-.6, .8), At(0, 1)], heavy: true);
                break;
            default:
                pen.Shape(new Trace()
                    .Ring([At(-.25, 0), At(-1.05, .45), At(-.85, .85), At(0, 1.1), At(.85, .85), At(1.05, .45), At(.25, 0)]));
                pen.Line([At(0, 0), At(.02, .3), At(0, .6)]);
                break;
        }

        return strokes;
    }
}
