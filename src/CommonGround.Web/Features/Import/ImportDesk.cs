using System.Security.Cryptography;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Import;

/// <summary>
/// Holds imports that are under way while the program runs, so that a reload, a lost connection or the way back loses nothing. The page's
/// address names the import by a random key, which opens it only for the person who began it.
/// </summary>
public sealed class ImportDesk(TimeProvider time)
{
    public const int MostKept = 20;
    private static readonly TimeSpan Kept = TimeSpan.FromHours(12);
    private readonly Lock gate = new();
    private readonly Dictionary<string, Entry> entries = new(StringComparer.Ordinal);

    private sealed record Entry(ImportWizard Wizard, Owner Of)
    {
        public DateTimeOffset Used { get; set; }
    }

    private sealed record Owner(int Neighbourhood, long? Account, long? Member);

    /// <summary>Keeps an import and gives its key.</summary>
    public string Keep(ImportWizard wizard, CurrentUser currentUser)
    {
        lock (gate)
        {
            Forget();
            while (entries.Count >= MostKept)
            {
                var (oldest, _) = entries.MinBy(e => e.Value.Used);
                entries.Remove(oldest);
            }

            var key = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
            entries[key] = new Entry(wizard, OwnerOf(currentUser)) { Used = time.GetUtcNow() };
            return key;
        }
    }

    /// <summary>The import of a key, ready to go on in another page; null where there is none, or it is somebody else's.</summary>
    public ImportWizard? Open(string? key, CurrentUser currentUser, ImportFiles import, GroupClock clock)
    {
        lock (gate)
        {
            Forget();
            if (key is null || !currentUser.MayOrganise || !entries.TryGetValue(key, out var entry) || entry.Of != OwnerOf(currentUser))
            {
                return null;
            }

            entry.Used = time.GetUtcNow();
            if (!entry.Wizard.Busy)
            {
                entry.Wizard.Resume(import, clock);
            }

            return entry.Wizard;
        }
    }

    /// <summary>The import that somebody signed in left last without finishing it; in the demo nobody is known, so there is none.</summary>
    public (string Key, ImportWizard Wizard)? LeftBy(CurrentUser currentUser)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        lock (gate)
        {
            Forget();
            var left = entries.Where(e => currentUser.AccountId is not null && e.Value.Of == OwnerOf(currentUser)
                && e.Value.Wizard.Files.Count > 0 && e.Value.Wizard.Step != ImportStep.Done).OrderByDescending(e => e.Value.Used).ToList();
            return left.Count == 0 ? null : (left[0].Key, left[0].Value.Wizard);
        }
    }

    public void Drop(string? key)
    {
        lock (gate)
        {
            if (key is not null)
            {
                entries.Remove(key);
            }
        }
    }

    private void Forget()
    {
        var before = time.GetUtcNow() - Kept;
        foreach (var key in entries.Where(e => e.Value.Used < before && !e.Value.Wizard.Busy).Select(e => e.Key).ToList())
        {
            entries.Remove(key);
        }
    }

    private static Owner OwnerOf(CurrentUser currentUser) => new(currentUser.NeighbourhoodId, currentUser.AccountId, currentUser.MemberId);
}
