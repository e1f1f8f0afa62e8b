using CommonGround.Storage;
using CommonGround.Storage.Tours;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Membership;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Tours;

/// <summary>A tour as it is typed.</summary>
public sealed record TourDraft
{
    public const int LongestMeet = 300, FarthestDays = 366;

    public DateOnly? On { get; set; }

    /// <summary>A street's name, or "yard " and a code.</summary>
    public string Place { get; set; } = "";
    public string Meet { get; set; } = "";

    public IReadOnlyList<Problem> Check(DateOnly today)
    {
        var problems = new List<Problem>();
        if (On is not { } day || day < today || day > today.AddDays(FarthestDays))
        {
            problems.Add(new(nameof(On), $"Choose a day from {Words.Date(today)} on, within a year."));
        }

        if (Place.Length == 0)
        {
            problems.Add(new(nameof(Place), "Choose a street or a yard."));
        }

        if (Meet.Trim().Length > LongestMeet)
        {
            problems.Add(new(nameof(Meet), $"Keep the meeting place within {LongestMeet} letters."));
        }

        return problems;
    }
}

/// <summary>Sets a tour, or ends it. Organisers alone; which yards it stops at is their households' word.</summary>
public sealed class KeepTour(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public const string YardPrefix = "yard ";

    private static readonly Problem NotYours = new("", "Organisers set tours.");

    /// <summary>Sets a tour; its key, or what is wrong.</summary>
    public async Task<(string? Key, IReadOnlyList<Problem> Problems)> SaveAsync(TourDraft draft, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(by);
        var key = Codes.New(3);
        var saved = await database.WriteAsync(
            async db =>
            {
                if (!by.May(Permission.Organise))
                {
                    return NotYours;
                }

                if (draft.Check(clock.Today) is { Count: > 0 } problems)
                {
                    return Intent.Refuse(problems);
                }

                var code = draft.Place.StartsWith(YardPrefix, StringComparison.Ordinal) ? draft.Place[YardPrefix.Length..] : null;
                var yard = code is null ? null : await db.Yards.Where(y => y.Code == code && y.OnTour).Select(y => (long?)y.Id)
                    .SingleOrDefaultAsync(cancel);
                var street = code is not null ? null : await db.Streets.Where(s => s.Name == draft.Place).Select(s => (long?)s.Id)
                    .SingleOrDefaultAsync(cancel);
                if (yard is null && street is null)
                {
                    return Intent.Refuse(nameof(TourDraft.Place), "This place is gone, or its household lets no guests in any more.");
                }

                db.Tours.Add(new Tour
                {
                    NeighbourhoodId = neighbourhood.Id,
                    Key = key,
                    On = draft.On!.Value,
                    StreetId = street,
                    YardId = yard,
                    Meet = draft.Meet.Trim(),
                });
                return by.Note($"set a tour for {Words.Date(draft.On.Value)}");
            }, cancel);
        return (saved.IsStored ? key : null, saved.Problems);
    }

    /// <summary>Ends a tour: its page and its leaflet open for nobody any more.</summary>
    public async Task<IReadOnlyList<Problem>> EndAsync(long id, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        var saved = await database.WriteAsync(
            async db =>
            {
                if (!by.May(Permission.Organise))
                {
                    return NotYours;
                }

                if (await db.Tours.SingleOrDefaultAsync(t => t.Id == id, cancel) is not { } tour)
                {
                    return new Problem("", "This tour has ended already.");
                }

                db.Tours.Remove(tour);
                return by.Note($"ended the tour of {Words.Date(tour.On)}");
            }, cancel);
        return saved.Problems;
    }
}
