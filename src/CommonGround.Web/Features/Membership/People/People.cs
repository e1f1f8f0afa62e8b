using CommonGround.Storage;
using CommonGround.Storage.Members;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>Somebody who takes part, with the yards they keep.</summary>
public sealed record Person(long Id, string Name, Role Role, bool SignsIn, IReadOnlyList<string> Yards);

/// <summary>Who takes part in a neighbourhood, and as what.</summary>
public sealed class People(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, SessionEvents standings)
{
    public async Task<IReadOnlyList<Person>> AllAsync(CurrentUser currentUser, CancellationToken cancel = default)
    {
        if (!currentUser.May(Permission.Invite))
        {
            return [];
        }

        await using var db = await database.CreateDbContextAsync(cancel);
        var members = await db.Members.AsNoTracking().Where(m => m.Role != Role.Visitor).ToListAsync(cancel);
        var yards = (await db.Yards.Where(y => y.OwnerId != null).Select(y => new { Owner = y.OwnerId!.Value, y.Code })
            .ToListAsync(cancel)).ToLookup(y => y.Owner, y => y.Code);
        return [.. members.Select(m => new Person(m.Id, m.Name, m.Role, m.AccountId is not null,
            [.. yards[m.Id].Order(StringComparer.Ordinal)]))
            .OrderByDescending(p => p.Role).ThenBy(p => p.Name, StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>Gives a role, or with <see cref="Role.Visitor"/> ends the membership. One administrator always stays.</summary>
    public async Task<IReadOnlyList<Problem>> SetRoleAsync(long memberId, Role role, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        var saved = await database.WriteAsync(
            async db =>
            {
                var member = await db.Members.SingleOrDefaultAsync(m => m.Id == memberId, cancel);
                if (member is null || !by.May(Permission.Administer) || neighbourhood.IsDemo || !Enum.IsDefined(role))
                {
                    return Intent.Refuse("", neighbourhood.IsDemo ? "The demo's accounts stay as they are."
                        : "Only administrators give roles.");
                }

                if (member.Role == role)
                {
                    return Intent.Nothing;
                }

                if (member.Role == Role.Administrator && !await db.Members.AnyAsync(m => m.Id != memberId && m.Role == Role.Administrator
                    && m.AccountId != null, cancel))
                {
                    return Intent.Refuse("", $"{member.Name} is the only administrator. Make somebody else administrator first.");
                }

                member.Role = role;
                return by.Note(role == Role.Visitor ? "ended a membership"
                    : $"gave somebody the role {role.ToString().ToLowerInvariant()}");
            }, cancel);
        if (saved.IsStored)
        {
            standings.Changed(null, memberId);
        }

        return saved.Problems;
    }

    /// <summary>Says who keeps a yard; null: nobody, it is looked after by the organisers.</summary>
    public async Task<IReadOnlyList<Problem>> GiveYardAsync(string code, long? memberId, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(by);
        return (await database.WriteAsync(
            async db =>
            {
                var yard = await db.Yards.SingleOrDefaultAsync(y => y.Code == code, cancel);
                if (yard is null || !by.MayOrganise || (memberId is { } id
                    && !await db.Members.AnyAsync(m => m.Id == id && m.Role != Role.Visitor, cancel)))
                {
                    return Intent.Refuse("", "There is no such yard or member, or you may not hand yards over.");
                }

                if (yard.OwnerId != memberId)
                {
                    // Guests and plans are a household's own word: another household has not given it.
                    (yard.OnTour, yard.WouldPlant, yard.Directions) = (false, false, "");
                }

                yard.OwnerId = memberId;
                return by.Note(memberId is null ? $"took {code} back to the organisers" : $"gave {code} to its household");
            }, cancel)).Problems;
    }
}
