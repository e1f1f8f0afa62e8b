using CommonGround.Interchange.GeoJson;

namespace CommonGround.Web.Features.Streets;

/// <summary>Where streets meet or end.</summary>
/// <param name="Name">What crosses here, where somebody typed it; empty otherwise.</param>
public sealed record DrawnCrossing(long Id, GeoPoint At, string Name);

/// <param name="Began">The name as it was stored when the drawing was opened; null for a street drawn since.</param>
public sealed record DrawnStreet(long Id, string Name, string? Began);

/// <summary>A block as drawn.</summary>
/// <param name="Name">Empty: it is named after its crossings.</param>
/// <param name="From">Its crossings; null for an outline, and for a block that is not drawn.</param>
/// <param name="Between">Bends between the crossings, on the way from the first to the second.</param>
/// <param name="Kept">The stored shape of a block that is not a line: an outline, or null where only its middle is known.</param>
/// <param name="Middle">Of such a block; null where it has no place at all.</param>
/// <param name="Began">Street, name and shape as stored when the drawing was opened; null for a block drawn since.</param>
/// <param name="Laid">Its line as it was laid out then, ends that lie together drawn into one crossing; a line that still is so stays as
/// stored.</param>
public sealed record DrawnBlock(long Id, long StreetId, string Name, long? From, long? To, IReadOnlyList<GeoPoint> Between, string? Kept,
    GeoPoint? Middle, string? Began, string? Laid = null)
{
    public bool IsLine => From is not null && To is not null;

    public bool Meets(long crossing) => From == crossing || To == crossing;
}

/// <param name="Began">Block and place as stored when the drawing was opened; null for a yard placed since.</param>
public sealed record DrawnYard(long Id, long BlockId, string Code, GeoPoint At, string? Began)
{
    public string Told => $"{BlockId}|{At.Latitude:R}|{At.Longitude:R}";

    /// <summary>Not as stored.</summary>
    public bool IsChanged => Began != Told;
}

/// <summary>Streets, blocks and yards as they stand in a drawing. Never altered: each step makes another.</summary>
/// <param name="Known">Stored rows the drawing began with: one that is gone from it was deleted in it.</param>
/// <param name="Heirs">For a block deleted or joined to another: the one that takes over what is recorded of it.</param>
public sealed record DrawnGround(IReadOnlyList<DrawnCrossing> Crossings, IReadOnlyList<DrawnStreet> Streets,
    IReadOnlyList<DrawnBlock> Blocks, IReadOnlyList<DrawnYard> Yards, IReadOnlyList<long> Known, IReadOnlyDictionary<long, long> Heirs)
{
    public static DrawnGround Empty { get; } = new([], [], [], [], [], new Dictionary<long, long>());

    public DrawnCrossing Crossing(long id) => Crossings.First(c => c.Id == id);

    public DrawnStreet Street(long id) => Streets.First(s => s.Id == id);

    public DrawnBlock? Block(long id) => Blocks.FirstOrDefault(b => b.Id == id);

    public int YardsOn(long block) => Yards.Count(y => y.BlockId == block);

    /// <summary>The way of a block from crossing to crossing.</summary>
    public IReadOnlyList<GeoPoint> LineOf(DrawnBlock block) => block.IsLine
        ? [Crossing(block.From!.Value).At, .. block.Between, Crossing(block.To!.Value).At] : [];

    /// <summary>The place that stands for a block.</summary>
    public GeoPoint? MiddleOf(DrawnBlock block) => block.IsLine ? MiddlePoint.Of(GeoShape.Line(LineOf(block))) : block.Middle;

    public DrawnGround With(DrawnBlock block) => this with { Blocks = [.. Blocks.Select(b => b.Id == block.Id ? block : b)] };

    /// <summary>Without crossings and streets that nothing stands on any more.</summary>
    /// <param name="pen">Kept although no block leads to it yet.</param>
    /// <param name="street">The street being drawn, kept likewise.</param>
    public DrawnGround Tidied(long? pen, long? street) => this with
    {
        Crossings = [.. Crossings.Where(c => c.Id == pen || Blocks.Any(b => b.Meets(c.Id)))],
        Streets = [.. Streets.Where(s => s.Id == street || Blocks.Any(b => b.StreetId == s.Id))],
    };
}
