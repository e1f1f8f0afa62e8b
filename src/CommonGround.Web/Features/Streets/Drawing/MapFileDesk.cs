using System.Security.Cryptography;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Streets;

/// <summary>Holds map files that somebody is looking at while the program runs, so that a reload loses nothing. The page's address names
/// one by a random key, which opens it only for organisers of its neighbourhood signed in alike.</summary>
public sealed class MapFileDesk(TimeProvider time)
{
    /// <summary>Files of up to 32 MB: few are kept.</summary>
    public const int MostKept = 5;
    private static readonly TimeSpan Kept = TimeSpan.FromHours(12);
    private readonly Lock gate = new();
    private readonly List<(string Key, MapFileChoice Choice, (int, long?, long?) Of, DateTimeOffset Since)> held = [];

    /// <summary>Keeps a file and gives its key.</summary>
    public string Keep(MapFileChoice choice, CurrentUser currentUser)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        var key = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        lock (gate)
        {
            Forget();
            held.RemoveRange(0, Math.Max(0, held.Count - MostKept + 1));
            held.Add((key, choice, Of(currentUser), time.GetUtcNow()));
        }

        return key;
    }

    /// <summary>The file of a key; null where there is none, or it is somebody else's.</summary>
    public MapFileChoice? Open(string? key, CurrentUser currentUser)
    {
        ArgumentNullException.ThrowIfNull(currentUser);
        lock (gate)
        {
            Forget();
            return currentUser.MayOrganise ? held.Find(h => h.Key == key && h.Of == Of(currentUser)).Choice : null;
        }
    }

    private void Forget() => held.RemoveAll(h => h.Since < time.GetUtcNow() - Kept);

    private static (int, long?, long?) Of(CurrentUser who) => (who.NeighbourhoodId, who.AccountId, who.MemberId);
}
