using CommonGround.Interchange.GeoJson;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Streets;

/// <summary>What a press on the ground does.</summary>
public enum DrawingMode { Crossings, Yards, Move }

/// <summary>One person at one drawing: what a press does, what is chosen, what part of the ground is seen, and what was said
/// last.</summary>
public sealed class DrawingSession
{
    private const int Wide = 690, WideHigh = 520, Narrow = 328, NarrowHigh = 300;
    private const double SnapPixels = 14, Margin = 1.25, MetresPerPixelAtFirst = 0.8;

    public DrawingSession(DrawnGround ground, GeoPoint middle)
    {
        (Drawing, Middle) = (new StreetDrawing(ground), middle);
        Fit();
    }

    public StreetDrawing Drawing { get; }
    public DrawnGround Ground => Drawing.Now;
    public DrawnChange Change => DrawnChange.Of(Drawing.Began, Drawing.Now);
    public GeoPoint Middle { get; private set; }

    /// <summary>Of the wide drawing; the narrow one shows as much in less.</summary>
    public double MetresPerPixel { get; private set; } = MetresPerPixelAtFirst;
    public DrawingMode Mode { get; private set; }
    public long? Crossing { get; private set; }
    public long? Yard { get; private set; }
    public string Said { get; private set; } = "";

    /// <summary>The name of the street being drawn; kept with the street as soon as there is one.</summary>
    public string StreetName { get; private set; } = "";

    public MapProjection Map(bool narrow) => narrow
        ? new(Middle.Latitude, Middle.Longitude, MetresPerPixel * Wide / Narrow, Narrow, NarrowHigh)
        : new(Middle.Latitude, Middle.Longitude, MetresPerPixel, Wide, WideHigh);

    /// <summary>Goes on with what was kept on the device.</summary>
    public void Resume(DrawnChange kept)
    {
        ArgumentNullException.ThrowIfNull(kept);
        Drawing.Resume(kept.Over(Drawing.Began));
        Fit();
    }

    public void Choose(DrawingMode mode) => (Mode, Crossing, Yard, Said) = (mode, null, null, "");

    public void Say(string words) => Said = words;

    /// <summary>A press, in pixels of a drawing that is shown so wide.</summary>
    public void Press(double x, double y, double shownWidth, bool narrow)
    {
        var map = Map(narrow);
        var scale = map.Width / Math.Max(1, shownWidth);
        var (longitude, latitude) = map.From(x * scale, y * scale);
        Press(new GeoPoint(latitude, longitude), SnapPixels * map.MetresPerPixel);
    }

    public void Press(GeoPoint at, double snapMetres)
    {
        switch (Mode)
        {
            case DrawingMode.Crossings:
                Draw(at, snapMetres, "");
                break;
            case DrawingMode.Yards:
                Said = Drawing.PlaceYard(at);
                Said = Said.Length > 0 ? Said : $"Yard {Ground.Yards[^1].Code} placed on {Told(Ground.Yards[^1].BlockId)}.";
                break;
            default:
                Move(at, snapMetres);
                break;
        }
    }

    /// <summary>The next crossing by words: so far from the last, in a direction.</summary>
    public void Type(string crosses, double metres, double degrees)
    {
        var from = Drawing.Pen is { } pen ? Ground.Crossing(pen).At : Middle;
        var turn = degrees * Math.PI / 180;
        Draw(DrawnLines.Moved(from, metres * Math.Cos(turn), metres * Math.Sin(turn)), 1, crosses);
    }

    public void Name(string street)
    {
        StreetName = street.Trim();
        if (Drawing.Street is { } id && Ground.Street(id).Name != StreetName)
        {
            Drawing.RenameStreet(id, StreetName);
        }
    }

    /// <summary>A street was named in the list: where it is the one being drawn, its field follows.</summary>
    public void Named() => StreetName = Drawing.Street is { } id ? Ground.Street(id).Name : StreetName;

    /// <summary>Chooses what is moved, without a press.</summary>
    public void Pick(long? crossing, long? yard) => (Crossing, Yard) = (crossing, yard);

    public void EndStreet()
    {
        Drawing.EndStreet();
        (StreetName, Said) = ("", "Press the first crossing of the next street, or type its name first.");
    }

    public void GoOn(long street)
    {
        var last = Ground.Blocks.LastOrDefault(b => b.StreetId == street && b.IsLine);
        Drawing.GoOn(street, last is null ? null : Ground.Blocks.Count(b => b.StreetId == street && b.Meets(last.To!.Value)) == 1 ? last.To
            : last.From);
        (StreetName, Mode, Said) = (Ground.Street(street).Name, DrawingMode.Crossings, "Press the next crossing.");
    }

    public void Undo()
    {
        Drawing.Undo();
        Said = "";
        Crossing = Ground.Crossings.Any(c => c.Id == Crossing) ? Crossing : null;
        Yard = Ground.Yards.Any(y => y.Id == Yard) ? Yard : null;
        StreetName = Drawing.Street is { } id ? Ground.Street(id).Name : "";
    }

    /// <summary>Moves what is chosen by so many metres.</summary>
    public void Nudge(double north, double east)
    {
        if (Crossing is { } crossing)
        {
            Drawing.MoveCrossing(crossing, DrawnLines.Moved(Ground.Crossing(crossing).At, north, east));
        }
        else if (Yard is { } yard)
        {
            Said = Drawing.MoveYard(yard, DrawnLines.Moved(Ground.Yards.First(y => y.Id == yard).At, north, east));
        }
    }

    public void TakeCrossing()
    {
        Said = Drawing.TakeCrossing(Crossing!.Value);
        Crossing = Said.Length == 0 ? null : Crossing;
    }

    public void Zoom(double times) => MetresPerPixel = Math.Clamp(MetresPerPixel * times, 0.05, 40);

    /// <summary>Looks further: shares of what is seen.</summary>
    public void Look(double north, double east) =>
        Middle = DrawnLines.Moved(Middle, north * WideHigh * MetresPerPixel, east * Wide * MetresPerPixel);

    /// <summary>All that is drawn, with some ground round it.</summary>
    public void Fit()
    {
        var points = Ground.Crossings.Select(c => c.At).Concat(Ground.Yards.Select(y => y.At))
            .Concat(Ground.Blocks.Select(b => b.Middle).OfType<GeoPoint>()).ToList();
        if (points.Count == 0)
        {
            return;
        }

        Middle = new((points.Min(p => p.Latitude) + points.Max(p => p.Latitude)) / 2,
            (points.Min(p => p.Longitude) + points.Max(p => p.Longitude)) / 2);
        var (east, north) = DrawnLines.Way(new(points.Min(p => p.Latitude), points.Min(p => p.Longitude)),
            new(points.Max(p => p.Latitude), points.Max(p => p.Longitude)));
        MetresPerPixel = Math.Max(MetresPerPixelAtFirst / 2, Margin * Math.Max(east / Wide, north / WideHigh));
    }

    private void Draw(GeoPoint at, double snapMetres, string crosses)
    {
        var before = (Drawing.Pen, Ground.Blocks.Count);
        Said = Drawing.Press(at, snapMetres, StreetName, crosses);
        if (Said.Length > 0)
        {
            return;
        }

        StreetName = Ground.Street(Drawing.Street!.Value).Name;
        var (x, y) = Map(narrow: false).At(at.Longitude, at.Latitude);
        Middle = x is < 0 or > Wide || y is < 0 or > WideHigh ? at : Middle;
        Said = before.Pen is { } pen && Ground.Crossings.Any(c => c.Id == pen) && pen != Drawing.Pen
            ? $"{Words.Count(Ground.Blocks.Count - before.Count, "more block")}; the last way is "
                + $"{Math.Round(DrawnLines.Metres(Ground.Crossing(pen).At, Ground.Crossing(Drawing.Pen!.Value).At))} m long."
            : "Press the next crossing.";
    }

    private void Move(GeoPoint at, double snapMetres)
    {
        if (Crossing is { } crossing)
        {
            Drawing.MoveCrossing(crossing, at);
            (Crossing, Said) = (null, "The crossing is moved; the yards stay where they are.");
        }
        else if (Yard is { } yard)
        {
            Said = Drawing.MoveYard(yard, at);
            Said = Said.Length > 0 ? Said
                : Ground.Yards.First(y => y.Id == yard) is var moved ? $"Yard {moved.Code} stands on {Told(moved.BlockId)}." : "";
            Yard = null;
        }
        else
        {
            var near = Ground.Crossings.Select(c => (c.Id, IsYard: false, Metres: DrawnLines.Metres(c.At, at)))
                .Concat(Ground.Yards.Select(y => (y.Id, IsYard: true, Metres: DrawnLines.Metres(y.At, at)))).OrderBy(c => c.Metres)
                .FirstOrDefault();
            var found = near.Id != 0 && near.Metres <= snapMetres * 1.5;
            Crossing = found && !near.IsYard ? near.Id : null;
            Yard = found && near.IsYard ? near.Id : null;
            Said = Crossing is null && Yard is null ? "Press the crossing or yard you want to move."
                : "Now press the place it shall go to, or use the arrows below the map.";
        }
    }

    private string Told(long block) => $"{DrawingWords.StreetName(Ground.Street(Ground.Block(block)!.StreetId))}, "
        + DrawingWords.Blocks(Ground)[block];
}
