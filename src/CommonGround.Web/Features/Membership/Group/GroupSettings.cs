using CommonGround.Storage;
using CommonGround.Storage.History;
using CommonGround.Storage.Members;
using CommonGround.Storage.Places;
using CommonGround.Web.Access;
using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Export;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Membership;

/// <summary>What a group is called and how people join it.</summary>
public sealed record GroupFacts(string Name, string TimeZone, bool OpenSignUp, string Host);

/// <summary>Looks after the group itself: its name and door, its streets and blocks, further neighbourhoods on the same site.</summary>
public sealed class GroupSettings(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, Neighbourhoods all)
{
    private static readonly Problem OnlyAdministrators = new("", "Only administrators change this.");

    public async Task<GroupFacts> FactsAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Neighbourhoods.Where(n => n.Id == neighbourhood.Id)
            .Select(n => new GroupFacts(n.Name, n.TimeZone, n.OpenSignUp, n.Host)).SingleAsync(cancel);
    }

    public async Task<IReadOnlyList<Problem>> SaveAsync(GroupFacts facts, CurrentUser by, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(facts);
        if (!by.May(Permission.Administer) || neighbourhood.IsDemo)
        {
            return [neighbourhood.IsDemo ? new Problem("", "The demo stays as it is.") : OnlyAdministrators];
        }

        if (Check(facts.Name, facts.TimeZone) is { Count: > 0 } problems)
        {
            return problems;
        }

        var host = facts.Host.Trim();
        if (host.Length > 0 && Uri.CheckHostName(host) == UriHostNameType.Unknown)
        {
            return [new(nameof(
                GroupFacts.Host), $"“{host}” is not a host name. Write it without https://, such as plants.example.org, or leave it "
                    + $"blank.")];
        }

        var saved = await database.WriteAsync(
            async db =>
            {
                var row = await db.Neighbourhoods.SingleAsync(n => n.Id == neighbourhood.Id, cancel);
                (row.Name, row.TimeZone, row.OpenSignUp, row.Host) = (facts.Name.Trim(), facts.TimeZone, facts.OpenSignUp, host);
                return by.Note("changed what the group is called or how people join");
            }, cancel);
        if (saved.IsStored)
        {
            await all.TryReadAsync(cancel);
        }

        return saved.Problems;
    }

    /// <summary>Adds a block to a street, and the street where it is new.</summary>
    public async Task<IReadOnlyList<Problem>> AddBlockAsync(string street, string block, double? latitude, double? longitude,
        CurrentUser by, CancellationToken cancel = default)
    {
        var (streetName, blockName) = (street.Trim(), block.Trim());
        if (!by.MayOrganise)
        {
            return [new("", "Organisers add streets and blocks.")];
        }

        if (streetName.Length is 0 or > 200 || blockName.Length is 0 or > 200)
        {
            return [new("street", "Give the street and the block a name, such as Oak Street and “1st to 2nd Avenue”.")];
        }

        if (latitude is not (>= -90 and <= 90) || longitude is not (>= -180 and <= 180))
        {
            return [new("middle",
                "Give the block's middle in decimal degrees, latitude from −90 to 90 and longitude from −180 to 180. A map on the web "
                    + "shows both for a place you point at.")];
        }

        if (latitude < 0)
        {
            return [new("middle", $"{Interchange.GeoJson.GeoPoints.South} {Interchange.GeoJson.GeoPoints.MendSouth}")];
        }

        var saved = await database.WriteAsync(
            async db =>
            {
                var known = (await db.Streets.ToListAsync(cancel)).Find(s => s.Name.Equals(streetName, StringComparison.OrdinalIgnoreCase));
                if (known is null)
                {
                    known = new Street { NeighbourhoodId = neighbourhood.Id, Id = RowIds.Next(), Name = streetName };
                    db.Streets.Add(known);
                }
                else if ((await db.Blocks.Where(b => b.StreetId == known.Id).Select(b => b.Name).ToListAsync(cancel)).Contains(blockName,
                    StringComparer.OrdinalIgnoreCase))
                {
                    return Intent.Refuse("street", $"{known.Name} has a block called {blockName} already.");
                }

                db.Blocks.Add(new StreetBlock
                {
                    NeighbourhoodId = neighbourhood.Id,
                    Id = RowIds.Next(),
                    StreetId = known.Id,
                    Name = blockName,
                    MiddleLatitude = latitude,
                    MiddleLongitude = longitude
                });
                return by.Note($"added the block {known.Name}, {blockName}");
            }, cancel);

        return saved.Problems;
    }

    /// <summary>Begins a further neighbourhood on this site; whoever does it is its administrator.</summary>
    public async Task<IReadOnlyList<Problem>> AddNeighbourhoodAsync(string name, string timeZone, CurrentUser by,
        CancellationToken cancel = default)
    {
        if (!by.May(Permission.Administer) || neighbourhood.IsDemo || by.AccountId is null)
        {
            return [neighbourhood.IsDemo
                ? new Problem("", "A demo is never mixed with real groups: start the program with another data folder.")
                : OnlyAdministrators];
        }

        if (Check(name, timeZone) is { Count: > 0 } problems)
        {
            return problems;
        }

        var id = 0;
        var saved = await database.WriteAsync(
            async db =>
            {
                id = await db.Neighbourhoods.MaxAsync(n => n.Id, cancel) + 1;
                db.Neighbourhoods.Add(new Neighbourhood
                {
                    Id = id,
                    Name = name.Trim(),
                    TimeZone = timeZone,
                    OffsetKey = PlaceOffset.NewKey()
                });
                db.Members.Add(new Member { NeighbourhoodId = id, Name = by.Name, Role = Role.Administrator, AccountId = by.AccountId });
                return ChangeNote.OfProgram(id, "began the neighbourhood") with { From = by.From, KeepsRows = false };
            }, cancel);
        if (!saved.IsStored)
        {
            return saved.Problems;
        }

        var read = await all.TryReadAsync(cancel);
        var loaded = read.Count > 0 ? read : await Door.TryAsync(async () =>
        {
            await SiteStartup.LoadCatalogueAsync(database, all.Find(id)!, cancel);
            return [];
        });
        return loaded.Count == 0 ? []
            : [new("", $"{name.Trim()} was begun, but its plants could not be loaded yet: the database did not answer. They are loaded "
            + $"when the program starts next; do not begin it again.")];
    }

    private static List<Problem> Check(string name, string timeZone)
    {
        var problems = new List<Problem>();
        if (name.Trim().Length is 0 or > 200)
        {
            problems.Add(new(nameof(GroupFacts.Name), "Give the neighbourhood a name, up to 200 characters."));
        }

        if (TimeZones.Fault(timeZone) is { } fault)
        {
            problems.Add(new(nameof(GroupFacts.TimeZone), fault));
        }

        return problems;
    }
}
