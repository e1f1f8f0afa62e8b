using System.Security.Cryptography;
using CommonGround.Interchange.Photos;
using CommonGround.Storage;
using CommonGround.Storage.Places;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Photos;

/// <summary>What is said of a photo.</summary>
public sealed class PhotoDraft
{
    public string Caption { get; set; } = "";

    /// <summary>Null while the field is empty.</summary>
    public DateOnly? TakenOn { get; set; }

    /// <summary>What is wrong, by field; pure.</summary>
    public IReadOnlyList<Problem> Check(DateOnly today)
    {
        var problems = new List<Problem>();
        if (Caption.Trim().Length > 200)
        {
            problems.Add(new(nameof(Caption), "Keep the caption to 200 characters."));
        }

        if (TakenOn is not { Year: >= 1900 } day)
        {
            problems.Add(new(nameof(TakenOn), "Give the day the photo was taken."));
        }
        else if (day > today)
        {
            problems.Add(
                new(nameof(TakenOn), $"{Words.Date(day)} is in the future; today is {Words.Date(today)}. Give the day the photo was "
                    + $"taken."));
        }

        return problems;
    }
}

/// <summary>The plant that a photo shows, where it shows one.</summary>
/// <param name="Receipt">Of a photo that came from a walk: the receipt that is stored with it.</param>
internal sealed record PhotoOf(long? BedId, int? TaxonId, string Patch, Func<Photo, Storage.Walks.ReceivedNote>? Receipt = null);

/// <summary>Adds photos to a yard and takes them out. The file is laid down before the row that names it: whatever breaks off, no row is
/// without its file.</summary>
public sealed class YardPhotos(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, PhotoFolder folder, GroupClock clock,
    HeavyWork work)
{
    public const int MostOfAYard = 200, DaysToReturn = 30;
    private static readonly Problem AccessDenied = new("", "This yard is gone, or not yours to change.");
    private static readonly Problem Full = new("", $"The yard has {MostOfAYard} photos, as many as fit. Remove one, then add this.");
    private static readonly Problem NoRoom = new("",
        "The site’s disk did not take the photo: it may be full. Nothing was stored; tell whoever looks after the site, and try again.");

    public Task<IReadOnlyList<Problem>> AddAsync(long yardId, PhotoDraft draft, byte[] file, CurrentUser by,
        CancellationToken cancel = default) =>
        AddAsync(yardId, draft, file, new(null, null, ""), by, cancel);

    /// <param name="of">The plant it shows.</param>
    internal async Task<IReadOnlyList<Problem>> AddAsync(long yardId, PhotoDraft draft, byte[] file, PhotoOf of, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(of);
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(by);
        CleanPhoto? photo;
        string wrong;
        try
        {
            // Decoding takes memory and a processor for a moment, so it waits its turn.
            (photo, wrong) = await work.RunAsync(() => CleanPhoto.Read(file), cancel);
        }
        catch (TooBusyException e)
        {
            return [new("", e.Message)];
        }

        var problems = draft.Check(clock.Today).Concat(photo is null ? [new Problem("file", wrong)] : []).ToList();
        string? name = null;
        var saved = await database.WriteAsync(
            async db =>
            {
                if (await FindAsync(db, yardId, by, cancel) is not { } yard)
                {
                    return AccessDenied;
                }

                if (await db.Photos.CountAsync(p => p.YardId == yardId, cancel) >= MostOfAYard)
                {
                    return Intent.Refuse([.. problems, Full]);
                }

                if (problems.Count > 0)
                {
                    return Intent.Refuse(problems);
                }

                name ??= await WriteFileAsync(photo!, draft.TakenOn!.Value.Year, cancel);
                if (name is null)
                {
                    return NoRoom;
                }

                var row = Row(yardId, name, photo!, draft, of, by);
                db.Photos.Add(row);
                if (of.Receipt is not null)
                {
                    db.ReceivedNotes.Add(of.Receipt(row));
                }

                return by.Note($"added a photo of {yard.Code}");
            }, cancel);
        if (!saved.IsStored && name is not null)
        {
            // Nothing names the file. Where the answer got lost it may be named all the same: then it stays, and the check command says so
            // if it is not.
            await DropUnnamedAsync(name, cancel);
        }

        return saved.Problems;
    }

    /// <summary>Takes a photo out. It can be brought back from history for thirty days; then its file goes too.</summary>
    public async Task<IReadOnlyList<Problem>> RemoveAsync(long photoId, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        return (await database.WriteAsync(
            async db =>
            {
                var photo = await db.Photos.SingleOrDefaultAsync(p => p.Id == photoId, cancel);
                if (photo is null || await FindAsync(db, photo.YardId, by, cancel) is not { } yard)
                {
                    return Intent.Refuse("", "This photo is gone already, or not yours to remove.");
                }

                db.Remove(photo);
                return by.Note($"removed a photo of {yard.Code}") with { EraseAtUtc = clock.UtcNow.AddDays(DaysToReturn) };
            }, cancel)).Problems;
    }

    /// <summary>The file's name, or null where the disk did not take it.</summary>
    private async Task<string?> WriteFileAsync(CleanPhoto photo, int year, CancellationToken cancel)
    {
        try
        {
            return await folder.WriteAsync(photo, year, cancel);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A full or closed disk: nothing names the file, so nothing is half stored.
            return null;
        }
    }

    private async Task DropUnnamedAsync(string name, CancellationToken cancel) => await Door.TryAsync(async () =>
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        if (!await db.Photos.AnyAsync(p => p.FileName == name, cancel))
        {
            folder.Delete(name);
        }

        return [];
    });

    private Photo Row(long yardId, string name, CleanPhoto photo, PhotoDraft draft, PhotoOf of, CurrentUser by) => new()
    {
        NeighbourhoodId = neighbourhood.Id,
        Id = RowIds.Next(),
        YardId = yardId,
        FileName = name,
        Sha256 = Convert.ToHexStringLower(SHA256.HashData(photo.Bytes)),
        Caption = draft.Caption.Trim(),
        TakenOn = draft.TakenOn!.Value,
        BedId = of.BedId,
        TaxonId = of.TaxonId,
        Patch = of.Patch,
        AddedById = by.MemberId,
        AddedAtUtc = clock.UtcNow,
    };

    private static async Task<Yard?> FindAsync(CommonGroundDb db, long yardId, CurrentUser by, CancellationToken cancel)
    {
        var yard = await db.Yards.AsNoTracking().SingleOrDefaultAsync(y => y.Id == yardId, cancel);
        return yard is not null && by.May(Permission.KeepYard, yard.OwnerId) ? yard : null;
    }
}
