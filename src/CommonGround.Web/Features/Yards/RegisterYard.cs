using CommonGround.Ecology.Taxa;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Yards;

/// <summary>A bed as typed.</summary>
public sealed class BedDraft
{
    public string Name { get; set; } = "";
    public double? AreaSquareMetres { get; set; }
}

/// <summary>A yard as typed, step by step.</summary>
public sealed class YardDraft
{
    public long? BlockId { get; set; }
    public string Code { get; set; } = "";
    public double? Latitude { get; set; }
    public double? Longitude { get; set; }
    public double? AreaSquareMetres { get; set; }
    public double? LawnSquareMetres { get; set; }
    public Light? Light { get; set; }
    public Moisture? Moisture { get; set; }
    public SoilGroup? SoilGroup { get; set; }
    public string Household { get; set; } = "";
    public bool Shared { get; set; }
    public bool OnMap { get; set; }
    public List<BedDraft> Beds { get; set; } = [new() { Name = "Front bed" }];

    /// <summary>What is wrong, by field; pure.</summary>
    public IReadOnlyList<Problem> Check()
    {
        var problems = new List<Problem>();
        void Refuse(bool wrong, string field, string message)
        {
            if (wrong)
            {
                problems.Add(new(field, message));
            }
        }

        Refuse(BlockId is null, nameof(BlockId), "Choose the block the yard stands on.");
        Refuse(Code.Trim().Length is 0 or > 40, nameof(Code),
            "Give the yard a short code, such as KI-12. It says nothing of who lives there.");
        Refuse(Latitude is < -90 or > 90, nameof(Latitude), "Latitude is between −90 and 90 degrees.");
        Refuse(Latitude is >= -90 and < 0,
            nameof(Latitude), $"{Interchange.GeoJson.GeoPoints.South} {Interchange.GeoJson.GeoPoints.MendSouth}");
        Refuse(Longitude is < -180 or > 180, nameof(Longitude), "Longitude is between −180 and 180 degrees.");
        Refuse(Latitude is null != Longitude is null, nameof(Latitude),
            "Give both latitude and longitude, or neither: the middle of the block is taken then.");
        Refuse(Household.Trim().Length > 200, nameof(Household), "Keep the household's label to 200 characters.");
        Refuse(AreaSquareMetres is not > 0 || !double.IsFinite(AreaSquareMetres.Value), nameof(AreaSquareMetres),
            "How large is the yard, house and drive included? A figure above 0.");
        Refuse(LawnSquareMetres is { } lawn && !(lawn >= 0), nameof(LawnSquareMetres), "Lawn cannot be less than nothing.");
        Refuse(LawnSquareMetres > AreaSquareMetres, nameof(LawnSquareMetres), "The lawn cannot be larger than the yard.");
        Refuse(Light is null, nameof(Light), "Choose the light most of the yard has.");
        Refuse(Moisture is null, nameof(Moisture), "Choose how moist the soil is in an ordinary summer.");
        Refuse(Beds.Count(b => b.Name.Trim().Length > 0) != Beds.Select(b => b.Name.Trim()).Distinct(StringComparer.OrdinalIgnoreCase)
            .Count(), nameof(Beds), "Give each bed a name of its own.");
        Refuse(Beds.Any(b => b.Name.Trim().Length > 100), nameof(Beds), "Keep a bed's name to 100 characters.");
        Refuse(Beds.Any(b => b.AreaSquareMetres is { } bed && !(bed > 0)), nameof(Beds),
            "A bed's area is above 0; leave it blank if nobody has measured it.");
        Refuse(Beds.Sum(b => b.AreaSquareMetres ?? 0) > AreaSquareMetres, nameof(Beds), "The beds together are larger than the yard.");
        return problems;
    }
}

/// <summary>Registers a yard and its beds.</summary>
public sealed class RegisterYard(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public async Task<IReadOnlyList<(long Id, string Street, string Block,
        string NextCode)>> BlocksAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var blocks = await db.Blocks
            .Join(db.Streets, b => b.StreetId, s => s.Id, (b, s) => new { b.Id, Street = s.Name, Block = b.Name })
            .OrderBy(b => b.Street).ThenBy(b => b.Block).ToListAsync(cancel);
        var codes = await db.Yards.Select(y => y.Code).ToListAsync(cancel);
        return [.. blocks.Select(b => (b.Id, b.Street, b.Block, NextCode(b.Street, codes)))];
    }

    public async Task<IReadOnlyList<Problem>> SaveAsync(YardDraft draft, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(by);
        if (!by.MayRegister)
        {
            return [new("", "Only members and organisers register a yard.")];
        }

        var problems = draft.Check();
        if (problems.Count > 0)
        {
            return problems;
        }

        var saved = await database.WriteAsync(db => PrepareAsync(db, draft, by, cancel), cancel);

        return saved.Problems;
    }

    private async Task<Intent> PrepareAsync(CommonGroundDb db, YardDraft draft, CurrentUser by, CancellationToken cancel)
    {
        var id = neighbourhood.Id;
        var code = draft.Code.Trim();
        var codes = await db.Yards.Select(y => y.Code).ToListAsync(cancel);
        if (codes.Contains(code, StringComparer.OrdinalIgnoreCase))
        {
            return Intent.Refuse(nameof(YardDraft.Code), $"There is already a yard {code}. Choose another code.");
        }

        var block = await db.Blocks.SingleOrDefaultAsync(b => b.Id == draft.BlockId, cancel);
        if (block is null)
        {
            return Intent.Refuse(nameof(YardDraft.BlockId), "This block is no longer in the record. Choose another.");
        }

        var near = (Latitude: draft.Latitude ?? block.MiddleLatitude, Longitude: draft.Longitude ?? block.MiddleLongitude);
        if (near.Latitude is null || near.Longitude is null)
        {
            return Intent.Refuse(nameof(YardDraft.Latitude),
                "This block has no shape on the map yet, so the yard's own latitude and longitude are needed.");
        }

        var yard = new Yard
        {
            NeighbourhoodId = id,
            Id = RowIds.Next(),
            BlockId = block.Id,
            Code = code,
            Latitude = near.Latitude.Value,
            Longitude = near.Longitude.Value,
            AreaSquareMetres = draft.AreaSquareMetres!.Value,
            LawnSquareMetres = draft.LawnSquareMetres,
            Light = draft.Light,
            Moisture = draft.Moisture,
            SoilGroup = draft.SoilGroup,
            Household = draft.Household.Trim(),
            Shared = draft.Shared,
            OnMap = draft.OnMap,
            OwnerId = by.MemberId,
            RegisteredOn = clock.Today,
        };
        db.Yards.Add(yard);
        db.Beds.AddRange(draft.Beds.Where(b => b.Name.Trim().Length > 0)
            .Select(b => new Bed { NeighbourhoodId = id, YardId = yard.Id, Name = b.Name.Trim(), AreaSquareMetres = b.AreaSquareMetres }));
        return by.Note($"registered yard {code}");
    }

    /// <summary>The street's two letters and the next free number.</summary>
    internal static string NextCode(string street, IReadOnlyCollection<string> codes)
    {
        var prefix = street.Length >= 2 ? street[..2].ToUpperInvariant() : "YA";
        var last = codes.Where(c => c.StartsWith(prefix + "-", StringComparison.OrdinalIgnoreCase))
            .Select(c => int.TryParse(c[(prefix.Length + 1)..], out var n) ? n : 0).DefaultIfEmpty(0).Max();
        return $"{prefix}-{last + 1:00}";
    }
}
