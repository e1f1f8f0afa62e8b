using CommonGround.Interchange.Catalogue;
using CommonGround.Storage;
using CommonGround.Storage.Saving;
using CommonGround.Storage.Taxa;
using CommonGround.Web.Access;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Plants;

/// <summary>A value put in the catalogue's place, as the page shows it.</summary>
/// <param name="Catalogue">What the catalogue has there, in its own writing; empty when not known.</param>
public sealed record OverrideLine(string Trait, string Value, string Catalogue, string Reason, string Who, DateTime SetAtUtc, Guid Version);

/// <summary>Puts a value in the catalogue's place, or takes it back: permission, check, one context, one save.</summary>
public sealed class PlantOverrides(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood, GroupClock clock)
{
    public const int LongestValue = 200, LongestReason = 500;
    private static readonly Problem Organisers = new("", "Organisers override a value. Write a note instead: it reaches them.");
    private static readonly Problem Meanwhile = new("",
        "Somebody else changed this value while you were typing. What you typed is still here: look at the value above, then save again.");

    public async Task<IReadOnlyList<OverrideLine>> OfAsync(string scientificName, CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        if (await db.Taxa.AsNoTracking().SingleOrDefaultAsync(t => t.ScientificName == scientificName, cancel) is not { } taxon)
        {
            return [];
        }

        var rows = await db.PlantOverrides.AsNoTracking().Where(o => o.TaxonId == taxon.Id).ToListAsync(cancel);
        var names = await db.Members.ToDictionaryAsync(m => m.Id, m => m.Name, cancel);
        return [.. rows.Select(o => new OverrideLine(o.Trait, o.Value, PlantTraits.Value(taxon.Traits, o.Trait), o.Reason,
            o.SetById is { } who ? names.GetValueOrDefault(who, "") : "", o.SetAtUtc, o.Version))];
    }

    /// <param name="version">The version the page showed; null where it showed none.</param>
    /// <returns>Problems; empty when it is stored.</returns>
    public async Task<IReadOnlyList<Problem>> SetAsync(string scientificName, string trait, string value, string reason, Guid? version,
        CurrentUser by, CancellationToken cancel = default)
    {
        if (!by.May(Permission.OverridePlant))
        {
            return [Organisers];
        }

        return (await database.WriteAsync(db => PrepareAsync(db, scientificName, trait, value.Trim(), reason.Trim(), version, by, cancel),
            Meanwhile, cancel)).Problems;
    }

    /// <summary>The catalogue's value holds again.</summary>
    public async Task<IReadOnlyList<Problem>> RemoveAsync(string scientificName, string trait, CurrentUser by,
        CancellationToken cancel = default)
    {
        if (!by.May(Permission.OverridePlant))
        {
            return [Organisers];
        }

        return (await database.WriteAsync(
            async db =>
            {
                var (taxon, row) = await FindAsync(db, scientificName, trait, cancel);
                if (row is null)
                {
                    return Intent.Nothing;
                }

                db.PlantOverrides.Remove(row);
                return by.Note($"took back the group’s {PlantTraits.Of(trait)?.Label ?? trait} of {taxon!.Traits.DisplayName}");
            }, Meanwhile, cancel)).Problems;
    }

    private async Task<Intent> PrepareAsync(CommonGroundDb db, string scientificName, string trait, string value, string reason,
        Guid? version, CurrentUser by, CancellationToken cancel)
    {
        var (taxon, row) = await FindAsync(db, scientificName, trait, cancel);
        if (taxon is null)
        {
            return Intent.Refuse("", "This plant is no longer in the catalogue.");
        }

        var others = await db.PlantOverrides.AsNoTracking().Where(o => o.TaxonId == taxon.Id && o.Trait != trait).ToListAsync(cancel);
        var problems = Check(taxon, others, trait, value, reason);
        if (row?.Version != version)
        {
            problems.Add(Meanwhile);
        }

        if (problems.Count > 0)
        {
            return Intent.Refuse(problems);
        }

        if (row is null)
        {
            row = new PlantOverride { NeighbourhoodId = neighbourhood.Id, TaxonId = taxon.Id, Trait = trait };
            db.PlantOverrides.Add(row);
        }

        (row.Value, row.Reason, row.SetById, row.SetAtUtc) = (value, reason, by.MemberId, clock.UtcNow);
        return by.Note($"set {PlantTraits.Of(trait)!.Label} of {taxon.Traits.DisplayName} to {value}");
    }

    private static List<Problem> Check(Taxon taxon, List<PlantOverride> others, string trait, string value, string reason)
    {
        var problems = new List<Problem>();
        if (reason.Length is 0 or > LongestReason)
        {
            problems.Add(new("reason", reason.Length == 0 ? "Say why the group knows better: who measured it, where, or in which book."
                : $"The reason has {reason.Length} characters; shorten it to {LongestReason}."));
        }

        if (value.Length > LongestValue)
        {
            problems.Add(new("value", $"The value has {value.Length} characters; shorten it to {LongestValue}."));
        }
        else if (PlantTraits.Apply(GroupTraits.Of(taxon.Traits, others), trait, value, "") is { Taxon: null } refused)
        {
            problems.Add(new("value", refused.Problem));
        }

        return problems;
    }

    private static async Task<(Taxon? Taxon, PlantOverride? Row)> FindAsync(CommonGroundDb db, string scientificName, string trait,
        CancellationToken cancel)
    {
        var taxon = await db.Taxa.AsNoTracking().SingleOrDefaultAsync(t => t.ScientificName == scientificName, cancel);
        var row = taxon is null ? null : await db.PlantOverrides.SingleOrDefaultAsync(o => o.TaxonId == taxon.Id && o.Trait == trait,
            cancel);
        return (taxon, row);
    }
}
