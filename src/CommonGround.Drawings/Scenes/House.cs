using CommonGround.Drawings.Strokes;

namespace CommonGround.Drawings.Scenes;

/// <summary>Storeys of a house front.</summary>
public enum Story { One, OneAndAHalf, Two }

/// <summary>Where the front door is, seen from the street.</summary>
public enum Door { Left, Middle, Right }

/// <summary>How one comes to the door.</summary>
public enum FrontWalk { Straight, FromTheSide, None }

/// <summary>A house front as the household describes it.</summary>
/// <param name="Story">Its storeys.</param>
/// <param name="Door">Where the door is.</param>
/// <param name="Steps">Steps to the door, 0–6.</param>
/// <param name="Walk">How one comes to the door.</param>
public sealed record HouseFront(Story Story, Door Door, int Steps, FrontWalk Walk);

/// <summary>Draws a house front faintly, behind the bed.</summary>
internal static class House
{
    private const double Wide = 900, StoryHigh = 270;

    /// <param name="house">The front.</param>
    /// <param name="k">Pixels per centimetre at the house.</param>
    /// <param name="middle">Middle of the front, px.</param>
    /// <param name="ground">Its ground, px.</param>
    public static List<Stroke> Draw(HouseFront house, double k, double middle, double ground)
    {
        var strokes = new List<Stroke>();
        var pen = new Pen(strokes, 0, 0, 1, "house") { Wobble = .4 };
        var (left, right) = (middle - (Wide / 2 * k), middle + (Wide / 2 * k));
        var sill = Math.Clamp(house.Steps, 0, 6) * 17 * k;
        var eave = ground - sill - (StoryHigh * k * (house.Story == Story.Two ? 2 : 1));
        var ridge = eave - ((house.Story == Story.OneAndAHalf ? 250 : 165) * k);
        pen.Put("p i", new Trace().M(new(left - (30 * k), eave)).L(new(left + (150 * k), ridge)).L(new(right - (150 * k), ridge))
            .L(new(right + (30 * k), eave)).Z());
        Box(pen, left, eave, right - left, ground - eave);
        pen.Lines([[new(left, ground - sill), new(middle, ground - sill + .5), new(right, ground - sill)]], ink: "t i");
        var door = DoorMiddle(house, k, middle);
        Box(pen, door - (50 * k), ground - sill - (212 * k), 100 * k, 212 * k);
        Box(pen, door - (30 * k), ground - sill - (190 * k), 60 * k, 66 * k);
        foreach (var floor in Enumerable.Range(0, house.Story == Story.Two ? 2 : 1))
        {
            foreach (var x in new[] { -330.0, 0, 330 })
            {
                var at = middle + (x * k);
                if (floor > 0 || Math.Abs(at - door) > 120 * k)
                {
                    Window(pen, at, ground - sill - (StoryHigh * k * floor) - (225 * k), k);
                }
            }
        }

        if (house.Story == Story.OneAndAHalf)
        {
            pen.Put("p i", new Trace().M(new(middle - (120 * k), eave - (20 * k))).L(new(middle, ridge + (14 * k)))
                .L(new(middle + (120 * k), eave - (20 * k))).Z());
            Window(pen, middle, eave - (135 * k), k * .62);
        }

        for (var i = 0; i < Math.Clamp(house.Steps, 0, 6); i++)
        {
            var wide = (64 + (12 * (house.Steps - i))) * k;
            Box(pen, door - wide, ground - (17 * k * (i + 1)), wide * 2, 17 * k);
        }

        return strokes;
    }

    /// <summary>Height of the ridge, cm.</summary>
    public static double TallCm(HouseFront house) =>
        (Math.Clamp(house.Steps, 0, 6) * 17) + (StoryHigh * (house.Story == Story.Two ? 2 : 1))
            + (house.Story == Story.OneAndAHalf ? 250 : 165);

    /// <summary>Middle of the door, px.</summary>
    public static double DoorMiddle(HouseFront house, double k, double middle) =>
        middle + (house.Door switch { Door.Left => -300, Door.Right => 300, _ => 0 } * k);

    private static void Window(Pen pen, double x, double y, double k)
    {
        var (w, h) = (108 * k, 128 * k);
        Box(pen, x - (w / 2), y, w, h);
        pen.Lines([[new(x, y), new(x, y + h)], [new(x - (w / 2), y + (h / 2)), new(x + (w / 2), y + (h / 2))]], ink: "t i");
        Box(pen, x - (w * .6), y + h + (4 * k), w * 1.2, 7 * k);
    }

    private static void Box(Pen pen, double x, double y, double w, double h) =>
        pen.Put("p i", new Trace().M(pen.J(new(x, y))).L(pen.J(new(x + w, y))).L(pen.J(new(x + w, y + h))).L(pen.J(new(x, y + h))).Z());
}
