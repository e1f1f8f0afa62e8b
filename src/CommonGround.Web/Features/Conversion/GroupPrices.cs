using System.Text.Json;
using CommonGround.Planning.Conversion;
using CommonGround.Storage;
using CommonGround.Storage.Plans;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using CommonGround.Web.Shared;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Conversion;

/// <summary>One line of the table of prices.</summary>
public sealed class PriceLine
{
    public required int TaxonId { get; init; }
    public required string CommonName { get; init; }
    public required string ScientificName { get; init; }
    public double? SeedPerGram { get; set; }
    public double? PlugEach { get; set; }
}

/// <summary>What seed, plants and work cost here: read by every plan, set by organisers.</summary>
public sealed class GroupPrices(NeighbourhoodDatabase database, CurrentNeighbourhood neighbourhood)
{
    public async Task<PriceTable> ReadAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var id = neighbourhood.Id;
        var rates = await db.Neighbourhoods.Where(n => n.Id == id).Select(n => n.Rates).SingleAsync(cancel);
        var prices = await db.Prices
            .Join(db.Taxa, p => p.TaxonId, t => t.Id, (p, t) => new { t.ScientificName, p.SeedPerGram, p.PlugEach }).ToListAsync(cancel);
        return Read(rates) with
        {
            Invented = neighbourhood.IsDemo,
            Taxa = prices.ToDictionary(p => p.ScientificName, p => new TaxonPrice(p.SeedPerGram, p.PlugEach), StringComparer.Ordinal),
        };
    }

    /// <summary>Every taxon that a plan may hold, with its price or none.</summary>
    public async Task<List<PriceLine>> LinesAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        var prices = await db.Prices.AsNoTracking().ToDictionaryAsync(p => p.TaxonId, cancel);
        var taxa = await db.Taxa.AsNoTracking().ToListAsync(cancel);
        var traits = await Plants.GroupTraits.OfAsync(db, taxa, cancel);
        return [.. taxa.Zip(traits, (t, own) => (t.Id, t.ScientificName, Traits: own))
            .Where(t => t.Traits is { Nativity: Ecology.Taxa.Nativity.Native,
            LifeForm: not (Ecology.Taxa.LifeForm.Tree or Ecology.Taxa.LifeForm.Vine or Ecology.Taxa.LifeForm.Turf) })
            .Select(t => new PriceLine
            {
                TaxonId = t.Id,
                CommonName = t.Traits.CommonNames is [var name, ..] ? name : t.ScientificName,
                ScientificName = t.ScientificName,
                SeedPerGram = prices.GetValueOrDefault(t.Id)?.SeedPerGram,
                PlugEach = prices.GetValueOrDefault(t.Id)?.PlugEach,
            })
            .OrderBy(l => l.CommonName, StringComparer.OrdinalIgnoreCase)];
    }

    public async Task<IReadOnlyList<Problem>> SaveAsync(PriceTable rates, IReadOnlyList<PriceLine> lines, CurrentUser by,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(rates);
        ArgumentNullException.ThrowIfNull(lines);
        ArgumentNullException.ThrowIfNull(by);
        if (!by.MayOrganise)
        {
            return [new("", "Organisers set the group’s prices.")];
        }

        var problems = RateFields.Check(rates).ToList();
        problems.AddRange(lines.Where(l => l.SeedPerGram is < 0 or > 10_000 || l.PlugEach is < 0 or > 10_000 || l.SeedPerGram is double.NaN
            || l.PlugEach is double.NaN)
            .Select(l =>
            new Problem(l.ScientificName, $"{l.CommonName}: a price is between 0 and 10,000; leave it blank where nobody knows.")));
        if (problems.Count > 0)
        {
            return problems;
        }

        return (await database.WriteAsync(
            async db =>
            {
                var stored = await db.Prices.ToDictionaryAsync(p => p.TaxonId, cancel);
                foreach (var line in lines)
                {
                    if (!stored.TryGetValue(line.TaxonId, out var row) && (line.SeedPerGram ?? line.PlugEach) is not null)
                    {
                        row = new PriceRow { NeighbourhoodId = neighbourhood.Id, TaxonId = line.TaxonId };
                        db.Prices.Add(row);
                    }

                    if (row is not null)
                    {
                        (row.SeedPerGram, row.PlugEach) = (line.SeedPerGram, line.PlugEach);
                    }
                }

                var group = await db.Neighbourhoods.SingleAsync(n => n.Id == neighbourhood.Id, cancel);
                group.Rates = JsonSerializer.Serialize(rates with
                {
                    Invented = false,
                    Taxa = new Dictionary<string, TaxonPrice>(StringComparer.Ordinal)
                });
                return by.Note("set the group’s prices");
            }, cancel)).Problems;
    }

    private static PriceTable Read(string rates) => rates.Length == 0 ? new PriceTable() : JsonSerializer.Deserialize<PriceTable>(rates)
        ?? new PriceTable();
}
