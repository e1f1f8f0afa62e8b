using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Yards;

/// <summary>What a household agrees to, each by itself.</summary>
/// <param name="Shared">The yard counts in what the public sees of its block, street and neighbourhood.</param>
/// <param name="OnMap">The yard stands, moved by a stable offset, on maps and in files that leave the group.</param>
/// <param name="Photos">Photos of the yard may be seen in public.</param>
/// <param name="OnTour">Guests of a tour may stop there; whoever has the tour's address sees then what is in flower in the yard.</param>
/// <param name="WouldPlant">The household would plant; told to organisers only.</param>
public sealed record Consents(bool Shared, bool OnMap, bool Photos, bool OnTour = false, bool WouldPlant = false);

/// <summary>Looks after a yard: its facts, its household's consent, its leaving. All with effect at once.</summary>
public sealed class YardSettings(NeighbourhoodDatabase database, GroupClock clock)
{
    /// <summary>Days in which a yard that was taken out can be brought back; then what it held is erased.</summary>
    public const int DaysToReturn = 30;

    /// <summary>Letters of how a yard is found, and of the steward's line.</summary>
    public const int LongestDirections = 160, LongestLine = 300;

    /// <summary>The columns that hold consent.</summary>
    public static readonly IReadOnlyList<string> Consents = [nameof(Yard.Shared), nameof(Yard.OnMap), nameof(Yard.PhotosShared),
        nameof(Yard.OnTour), nameof(Yard.WouldPlant)];

    private static readonly Problem AccessDenied = new("", "This yard is gone, or not yours to change.");
    private static readonly Problem Meanwhile = new("",
        "Somebody else changed this yard at the same moment. What you typed is still here: look at the yard again, then save.");

    /// <summary>Gives or withdraws consent. A household with an account gives its own; organisers may only withdraw it then.</summary>
    public async Task<IReadOnlyList<Problem>> ConsentAsync(long yardId, Consents wanted, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(wanted);
        ArgumentNullException.ThrowIfNull(by);
        return await WriteAsync(yardId, by, (_, yard) =>
        {
            var gives = (wanted.Shared && !yard.Shared) || (wanted.OnMap && !yard.OnMap) || (wanted.Photos && !yard.PhotosShared)
                || (wanted.OnTour && !yard.OnTour) || (wanted.WouldPlant && !yard.WouldPlant);
            if (gives && yard.OwnerId is not null && !by.Owns(yard.OwnerId))
            {
                return Task.FromResult(Intent.Refuse("", "Only the household itself gives consent. You may withdraw it on their behalf."));
            }

            (yard.Shared, yard.OnMap, yard.PhotosShared) = (wanted.Shared, wanted.OnMap, wanted.Photos);
            (yard.OnTour, yard.WouldPlant) = (wanted.OnTour, wanted.WouldPlant);
            return Task.FromResult(Intent.Store(by.Note($"set what the household of {yard.Code} agrees to")));
        }, cancel);
    }

    /// <summary>What guests of a tour read of a yard: how to find it, and the steward's line. Only the household itself names a
    /// place.</summary>
    public async Task<IReadOnlyList<Problem>> TourWordsAsync(long yardId, string directions, string line, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(directions);
        ArgumentNullException.ThrowIfNull(line);
        ArgumentNullException.ThrowIfNull(by);
        return await WriteAsync(yardId, by, (_, yard) =>
        {
            var (place, said) = (directions.Trim(), line.Trim());
            if (place.Length > LongestDirections || said.Length > LongestLine)
            {
                return Task.FromResult(place.Length > LongestDirections
                    ? Intent.Refuse(nameof(Yard.Directions), $"Keep how to find it within {LongestDirections} letters.")
                    : Intent.Refuse(nameof(Yard.TourLine), $"Keep the line within {LongestLine} letters."));
            }

            if (place.Length > 0 && place != yard.Directions && yard.OwnerId is not null && !by.Owns(yard.OwnerId))
            {
                return Task.FromResult(Intent.Refuse(nameof(Yard.Directions),
                    "Only the household itself names an address. You may take it away."));
            }

            (yard.Directions, yard.TourLine) = (place, said);
            return Task.FromResult(Intent.Store(by.Note($"set what a tour says of {yard.Code}")));
        }, cancel);
    }

    /// <summary>Saves a yard's facts as typed.</summary>
    /// <param name="version">The yard's version when the page showed it.</param>
    public async Task<IReadOnlyList<Problem>> SaveAsync(long yardId, Guid version, YardDraft draft, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(by);
        return await WriteAsync(yardId, by, async (db, yard) =>
        {
            if (yard.Version != version)
            {
                return Meanwhile;
            }

            if (await CheckAsync(db, yardId, draft, by, cancel) is { Count: > 0 } problems)
            {
                return Intent.Refuse(problems);
            }

            yard.BlockId = draft.BlockId!.Value;
            yard.Code = draft.Code.Trim();
            (yard.Latitude, yard.Longitude) = (draft.Latitude ?? yard.Latitude, draft.Longitude ?? yard.Longitude);
            (yard.AreaSquareMetres, yard.LawnSquareMetres) = (draft.AreaSquareMetres!.Value, draft.LawnSquareMetres);
            (yard.Light, yard.Moisture, yard.SoilGroup) = (draft.Light, draft.Moisture, draft.SoilGroup);
            yard.Household = draft.Household.Trim();
            return by.Note($"changed the facts of {yard.Code}");
        }, cancel);
    }

    /// <summary>Takes a yard out with everything in it. For thirty days the change can be undone; then what it held is erased from history
    /// too.</summary>
    public async Task<IReadOnlyList<Problem>> TakeOutAsync(long yardId, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        return await WriteAsync(yardId, by, async (db, yard) =>
        {
            await RemoveAsync(db, yard, cancel);
            return by.Note($"took out yard {yard.Code} with all it held") with { EraseAtUtc = clock.UtcNow.AddDays(DaysToReturn) };
        }, cancel);
    }

    /// <summary>Marks a yard and all its rows for removal.</summary>
    internal static async Task RemoveAsync(CommonGroundDb db, Yard yard, CancellationToken cancel)
    {
        var yardId = yard.Id;
        db.RemoveRange(await db.Photos.Where(p => p.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Tours.Where(t => t.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Plans.Where(p => p.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Wildlife.Where(w => w.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Walks.Where(w => w.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Sightings.Where(s => s.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.CaseSteps.Where(s => s.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Treatments.Where(t => t.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Infestations.Where(i => i.YardId == yardId).ToListAsync(cancel));
        db.RemoveRange(await db.Beds.Where(b => b.YardId == yardId).ToListAsync(cancel));
        db.Remove(yard);
    }

    private static async Task<List<Problem>> CheckAsync(CommonGroundDb db, long yardId, YardDraft draft, CurrentUser by,
        CancellationToken cancel)
    {
        var code = draft.Code.Trim();
        var problems = draft.Check().ToList();
        var codes = await db.Yards.Where(y => y.Id != yardId).Select(y => y.Code).ToListAsync(cancel);
        if (codes.Contains(code, StringComparer.OrdinalIgnoreCase))
        {
            problems.Add(new(nameof(YardDraft.Code), $"There is already a yard {code}. Choose another code."));
        }

        if (!await db.Blocks.AnyAsync(b => b.Id == draft.BlockId, cancel))
        {
            problems.Add(new(nameof(YardDraft.BlockId), "This block is no longer in the record. Choose another."));
        }

        if (await db.Beds.Where(b => b.YardId == yardId).MaxAsync(b => b.AreaSquareMetres, cancel) is { } bed
            && bed > draft.AreaSquareMetres)
        {
            problems.Add(new(nameof(YardDraft.AreaSquareMetres), $"One of its beds is larger than that: {by.Units.AreaWords(bed)}."));
        }

        return problems;
    }

    private async Task<IReadOnlyList<Problem>> WriteAsync(long yardId, CurrentUser by, Func<CommonGroundDb, Yard, Task<Intent>> prepare,
        CancellationToken cancel)
    {
        var saved = await database.WriteAsync(
            async db => await db.Yards.SingleOrDefaultAsync(y => y.Id == yardId, cancel) is { } yard
                && by.May(Permission.KeepYard, yard.OwnerId) ? await prepare(db, yard) : AccessDenied, cancel);

        return saved.Problems;
    }
}
