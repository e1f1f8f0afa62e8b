using System.Text.Json;
using CommonGround.Interchange.Names;
using CommonGround.Interchange.Walks;

namespace CommonGround.Walk;

/// <summary>The yards and the catalogue's names: from the site when it answers, else as last taken along.</summary>
public sealed class Pack(Shelf shelf, TimeProvider time)
{
    private const string Taken = "taken", YardKey = "yard ";

    public WalkPack? Yards { get; private set; }

    /// <summary>Null until the names are made ready, after the list stands.</summary>
    public NameIndex? Names { get; private set; }

    public IReadOnlyList<WalkTaxon> Taxa { get; private set; } = [];

    public WalkYard? Yard { get; private set; }

    /// <summary>The site answered since the walk was opened.</summary>
    public bool Fresh { get; private set; }

    /// <summary>The site answered when it was asked last.</summary>
    public bool Reached { get; private set; } = true;

    /// <summary>The site answered that nobody is signed in who may record.</summary>
    public bool SignedOut { get; private set; }

    /// <summary>The group's day: as many days after the pack's as this phone's calendar says.</summary>
    public DateOnly Today => Yards is not { } pack ? DateOnly.FromDateTime(time.GetLocalNow().DateTime)
        : pack.Today.AddDays(Math.Max(0, (time.GetUtcNow().UtcDateTime - pack.ServerUtc).Days));

    /// <summary>What the phone has, at once.</summary>
    public async Task OpenAsync(string? code)
    {
        if (Yards is null && await shelf.ReadAsync(Taken, "pack") is { } pack)
        {
            Yards = Read(pack, WalkJson.Default.WalkPack);
        }

        await ShowAsync(code);
    }

    public async Task ShowAsync(string? code) =>
        Yard = code is not null && await shelf.ReadAsync(Taken, YardKey + code) is { } text ? Read(text, WalkJson.Default.WalkYard) : null;

    /// <summary>The names, after the list stands: on a slow phone the index takes as long as the list.</summary>
    public async Task OpenNamesAsync()
    {
        if (Names is null && await shelf.ReadAsync(Taken, "catalogue") is { } names)
        {
            Take(Read(names, WalkJson.Default.ListWalkTaxon));
        }
    }

    /// <summary>What the site has now; false without signal, and then what is there stays.</summary>
    /// <exception cref="Microsoft.JSInterop.JSException">The phone is full.</exception>
    public async Task<bool> RefreshAsync(string? code)
    {
        var answer = await shelf.GetAsync("data/pack");
        Reached = answer.Status != 0;
        SignedOut = answer.Status is 401 or 403 or 404;
        if (answer.Status != 200 || Read(answer.Text, WalkJson.Default.WalkPack) is not { } now)
        {
            return Fresh = false;
        }

        var sameReader = Yards is { } had && had.MemberId == now.MemberId && had.NeighbourhoodId == now.NeighbourhoodId;
        if (!sameReader)
        {
            // Others' yards are not left readable on the phone; what waits to be sent stays.
            await shelf.ClearAsync(Taken);
            Yard = null;
        }

        if (Taxa.Count == 0 || !sameReader || now.CatalogueVersion != Yards?.CatalogueVersion)
        {
            var names = await shelf.GetAsync("data/catalogue?v=" + Uri.EscapeDataString(now.CatalogueVersion));
            if (names.Status != 200)
            {
                return Fresh = false;
            }

            Take(Read(names.Text, WalkJson.Default.ListWalkTaxon));
            await shelf.WriteAsync((Taken, "catalogue", names.Text));
        }

        if ((!sameReader || now.Stamp != Yards?.Stamp || now.Today != Yards?.Today)
            && !await shelf.TakeLinesAsync(Taken, YardKey, "data/yards"))
        {
            return Fresh = false;
        }

        Yards = now;
        await shelf.WriteAsync((Taken, "pack", answer.Text));
        await ShowAsync(code);
        return Fresh = true;
    }

    /// <summary>Takes everything that can be fetched again off the phone.</summary>
    public async Task ForgetAsync()
    {
        await shelf.ClearAsync(Taken);
        (Yards, Yard, Names, Taxa, Fresh) = (null, null, null, [], false);
    }

    public WalkTaxon? Taxon(string scientificName) => Taxa.FirstOrDefault(t => t.ScientificName == scientificName);

    private void Take(List<WalkTaxon>? taxa)
    {
        Taxa = taxa ?? [];
        Names = taxa is null ? null : new NameIndex(taxa.Select(t => t.ToTaxon()));
    }

    /// <summary>What an older or a newer version wrote may not be readable: then it is fetched again.</summary>
    private static T? Read<T>(string text, System.Text.Json.Serialization.Metadata.JsonTypeInfo<T> type)
        where T : class
    {
        try
        {
            return JsonSerializer.Deserialize(text, type);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
