using CommonGround.Ecology.Sites;

namespace CommonGround.Web.Features.Streets;

/// <summary>Web Mercator fitted to a drawing: a few kilometres look true, and configured map tiles fit under it.</summary>
public sealed class MapProjection
{
    private const double EarthRadiusMetres = 6378137; // WGS 84 semi-major axis, as Web Mercator uses it
    private readonly double minX, maxY, scale;

    public MapProjection(IReadOnlyCollection<(double Longitude, double Latitude)> points, double width, double left, double top,
        double right, double bottom)
    {
        (Left, Top) = (left, top);
        Width = width;
        var xs = points.Select(p => X(p.Longitude)).ToList();
        var ys = points.Select(p => Y(p.Latitude)).ToList();
        minX = xs.Min();
        maxY = ys.Max();
        scale = (width - left - right) / Math.Max(xs.Max() - minX, 1);
        Height = Math.Clamp((maxY - ys.Min()) * scale, 60, 900) + top + bottom;
        MetresPerPixel = Math.Cos(points.Average(p => p.Latitude) * Math.PI / 180) / scale;
    }

    /// <summary>A drawing of a given size round its middle.</summary>
    public MapProjection(double latitude, double longitude, double metresPerPixel, double width, double height)
    {
        scale = Math.Cos(latitude * Math.PI / 180) / metresPerPixel;
        (Width, Height, MetresPerPixel) = (width, height, metresPerPixel);
        (minX, maxY) = (X(longitude) - (width / 2 / scale), Y(latitude) + (height / 2 / scale));
    }

    public double Width { get; }
    public double Height { get; }
    public double MetresPerPixel { get; }
    private double Left { get; }
    private double Top { get; }

    public (double X, double Y) At(double longitude, double latitude) => (Left + ((X(longitude) - minX) * scale),
        Top + ((maxY - Y(latitude)) * scale));

    /// <summary>The place that lies at a point of the drawing.</summary>
    public (double Longitude, double Latitude) From(double x, double y) => (
        (minX + ((x - Left) / scale)) / EarthRadiusMetres * 180 / Math.PI,
        ((2 * Math.Atan(Math.Exp((maxY - ((y - Top) / scale)) / EarthRadiusMetres))) - (Math.PI / 2)) * 180 / Math.PI);

    /// <summary>The tiles of a configured server that lie under the drawing, with their place on it.</summary>
    public IEnumerable<(string Url, double X, double Y, double Size)> Tiles(string template)
    {
        const double World = 2 * Math.PI * EarthRadiusMetres;
        var zoom = (int)Math.Clamp(Math.Round(Math.Log2(World * scale / 256)), 1, 19);
        var tile = World / Math.Pow(2, zoom);
        var size = tile * scale;
        var firstX = (int)Math.Floor((minX - (Left / scale) + (World / 2)) / tile);
        var firstY = (int)Math.Floor(((World / 2) - maxY - (Top / scale)) / tile);
        for (var x = firstX; Left + (((x * tile) - (World / 2) - minX) * scale) < Width; x++)
        {
            for (var y = firstY; Top + ((maxY - (World / 2) + (y * tile)) * scale) < Height; y++)
            {
                var url = template.Replace("{z}", $"{zoom}", StringComparison.Ordinal).Replace("{x}", $"{x}", StringComparison.Ordinal)
                    .Replace("{y}", $"{y}", StringComparison.Ordinal);
                yield return (url, Left + (((x * tile) - (World / 2) - minX) * scale), Top + ((maxY - (World / 2) + (y * tile)) * scale),
                    size);
            }
        }
    }

    private static double X(double longitude) => EarthRadiusMetres * longitude * Math.PI / 180;

    private static double Y(double latitude) => EarthRadiusMetres * Math.Log(Math.Tan((Math.PI / 4) + (latitude * Math.PI / 360)));
}

/// <summary>The street plan laid out for drawing: lines, crossings, street names at the ends of their lines.</summary>
public sealed class StreetPlan
{
    public StreetPlan(IReadOnlyList<BlockShapeOnMap> shapes, CommunityMatrix matrix, bool narrow)
    {
        Shapes = [.. shapes.Where(s => s.Points.Count > 1)];
        if (Shapes.Count == 0)
        {
            return;
        }

        var points = Shapes.SelectMany(s => s.Points).ToList();
        Projection = narrow ? new MapProjection(points, 328, 12, 40, 84, 44) : new MapProjection(points, 792, 40, 52, 128, 60);
        Crossings = [.. Shapes.Where(s => !s.Closed).SelectMany(s => new[] { s.Points[0], s.Points[^1] })
            .Select(p => Projection.At(p.Longitude, p.Latitude)).DistinctBy(p => (Math.Round(p.X, 1), Math.Round(p.Y, 1)))];
        Labels = [.. Shapes.GroupBy(s => matrix.Blocks[s.Block].Street)
            .Select(g => Label(matrix.Streets[g.Key].Name, narrow,
            [.. g.SelectMany(s => s.Points).Select(p => Projection.At(p.Longitude, p.Latitude))]))];
    }

    public IReadOnlyList<BlockShapeOnMap> Shapes { get; } = [];
    public MapProjection? Projection { get; }
    public IReadOnlyList<(double X, double Y)> Crossings { get; } = [];
    public IReadOnlyList<(string Name, double X, double Y, string Anchor)> Labels { get; } = [];

    public string Path(BlockShapeOnMap shape) =>
        "M" + string.Join('L', shape.Points.Select(p => Projection!.At(p.Longitude, p.Latitude))
            .Select(p => FormattableString.Invariant($"{p.X:0.#} {p.Y:0.#}"))) + (shape.Closed ? "Z" : "");

    /// <summary>Half the drawn length of a line, or the mean of an outline's corners: where the figure stands.</summary>
    public (double X, double Y) Middle(BlockShapeOnMap shape)
    {
        var points = shape.Points.Select(p => Projection!.At(p.Longitude, p.Latitude)).ToList();
        if (shape.Closed)
        {
            return (points.Average(p => p.X), points.Average(p => p.Y));
        }

        var lengths = points.Zip(points.Skip(1), (a, b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)))).ToList();
        var left = lengths.Sum() / 2;
        for (var i = 0; i < lengths.Count; i++)
        {
            if (left <= lengths[i])
            {
                var share = lengths[i] == 0 ? 0 : left / lengths[i];
                return (points[i].X + ((points[i + 1].X - points[i].X) * share), points[i].Y + ((points[i + 1].Y - points[i].Y) * share));
            }

            left -= lengths[i];
        }

        return points[^1];
    }

    /// <summary>A street's name at the right end of its line, or over the upper end of one that runs up and down.</summary>
    internal static (string Name, double X, double Y, string Anchor) Label(string name, bool narrow, List<(double X, double Y)> points)
    {
        var wide = points.Max(p => p.X) - points.Min(p => p.X) >= points.Max(p => p.Y) - points.Min(p => p.Y);
        var end = wide ? points.MaxBy(p => p.X) : points.MinBy(p => p.Y);
        // Three names side by side over the map have no room for "Avenue" on a phone.
        name = narrow && !wide ? name.Split(' ')[0] : name;
        return wide ? (name, end.X + 16, end.Y + 4.5, "start") : (name, end.X, end.Y - 18, "middle");
    }
}
