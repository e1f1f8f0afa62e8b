using System.Security.Cryptography;
using System.Text;
using CommonGround.Interchange.Csv;
using CommonGround.Web.Features.Community;

namespace CommonGround.Web.Features.Export;

/// <summary>
/// The rows as outsiders may have them, after Darwin Core's practice for generalised records: beside a moved place stands nothing that
/// could be looked up in the group's own list of places, and no text that somebody typed.
/// </summary>
public static class OutsiderRows
{
    /// <summary>Upper edges of the classes of yard areas, m²; each class is told by its middle.</summary>
    private static readonly double[] Edges = [125, 250, 500, 1000, 2000, 4000];

    /// <param name="rows">As stored, but with yards' places moved.</param>
    /// <param name="codes">For each yard's own code the random one that outsiders see.</param>
    public static ExportedRows Of(ExportedRows rows, IReadOnlyDictionary<string, string> codes)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(codes);
        var area = Classes([.. rows.Places.Select(p => p.YardSquareMetres)]);
        var beds = rows.Beds.GroupBy(b => b.Yard).SelectMany(g => g.OrderBy(b => b.Bed, StringComparer.Ordinal)
            .Select((b, i) => (Key: (b.Yard, b.Bed), Name: $"bed {i + 1}"))).ToDictionary(p => p.Key, p => p.Name);
        // What a household calls a patch may tell where it is.
        var patches = rows.Sightings.Where(s => s.Patch.Length > 0).GroupBy(s => (s.Yard, s.Bed, s.Name.Name))
            .SelectMany(g => g.Select(s => s.Patch).Distinct().Order(StringComparer.Ordinal)
            .Select((p, i) => (Key: (g.Key.Yard, g.Key.Bed, g.Key.Name, p), Label: $"{i + 1}"))).ToDictionary(p => p.Key, p => p.Label);
        // Sorted by what outsiders see: the order of the stored rows would tell the order of the yards' own codes.
        return new ExportedRows(
            [.. rows.Places.Select(p => p with { Street = "", Block = "", Yard = codes[p.Yard],
                YardSquareMetres = area(p.YardSquareMetres), LawnSquareMetres = null, Light = null, Moisture = null, SoilGroup = null,
                    Household = "" })
                .OrderBy(p => p.Yard, StringComparer.Ordinal).Select((p, i) => p with { Line = i + 2 })],
            [.. rows.Beds.Select(b => new BedRow(0, codes[b.Yard], beds[(b.Yard, b.Bed)], null, null, null, null))
                .OrderBy(b => b.Yard, StringComparer.Ordinal).ThenBy(b => b.Bed, StringComparer.Ordinal)
                .Select((b, i) => b with { Line = i + 2 })],
            [.. rows.Sightings.Select(s => s with { Yard = codes[s.Yard], Bed = beds[(s.Yard, s.Bed)],
                CoverSquareMetres = Worth(s.CoverSquareMetres), Observer = "", Remarks = "", VerifiedBy = "", PlaceInBed = "",
                Patch = s.Patch.Length == 0
                    ? "" : patches[(s.Yard, s.Bed, s.Name.Name, s.Patch)] })
                .OrderBy(s => s.ObservedOn).ThenBy(s => s.Yard, StringComparer.Ordinal).ThenBy(s => s.Bed, StringComparer.Ordinal)
                .ThenBy(s => s.Name.Name, StringComparer.Ordinal).Select((s, i) => s with { Line = i + 2 })],
            // Known by its block only, an infestation would name the block.
            [.. rows.Infestations.Where(i => i.Yard.Length > 0)
                .Select(i => i with { Yard = codes[i.Yard], Block = "", AreaSquareMetres = PublicView.Worth(i.AreaSquareMetres),
                Remarks = "" })
                .OrderBy(i => i.ObservedOn).ThenBy(i => i.Yard, StringComparer.Ordinal).ThenBy(i => i.Name.Name, StringComparer.Ordinal)
                .Select((i, n) => i with { Line = n + 2 })],
            rows.Blocks)
        {
            Walks = rows.Walks.ToDictionary(w => (codes[w.Key.Yard], w.Key.Day), w => w.Value),
            Rain = rows.Rain,
            Temperatures = rows.Temperatures,
            Prices = rows.Prices,
            Overrides = [.. rows.Overrides.Select(o => o with { Reason = "" })],
        };
    }

    /// <summary>A yard's code for outsiders: always the same, and without the neighbourhood's secret nobody finds the way back.</summary>
    public static string Code(string key, long yardId) =>
        "Y-" + Convert.ToHexString(HMACSHA256.HashData(Convert.FromHexString(key),
            Encoding.ASCII.GetBytes(FormattableString.Invariant($"code {yardId}"))))[..10];

    /// <summary>The middle of an area's class; a class with fewer than three yards is one with the next, so that no yard stands alone in
    /// its own.</summary>
    public static Func<double, double> Classes(IReadOnlyList<double> areas)
    {
        ArgumentNullException.ThrowIfNull(areas);
        var edges = new List<double> { 0 };
        foreach (var edge in Edges.Append(double.PositiveInfinity))
        {
            if (areas.Count(a => a > edges[^1] && a <= edge) >= Figures.YardsToShow)
            {
                edges.Add(edge);
            }
        }

        // What is left above the last full class belongs to it.
        if (edges.Count > 1)
        {
            edges[^1] = double.PositiveInfinity;
        }
        else
        {
            edges.Add(double.PositiveInfinity);
        }

        return area =>
        {
            var at = Enumerable.Range(1, edges.Count - 1).First(i => area <= edges[i]);
            return Middle(edges[at - 1], edges[at]);
        };
    }

    private static double Middle(double from, double to) =>
        (from, to) is (0, double.PositiveInfinity) ? 500 : double.IsPositiveInfinity(to) ? from * 1.5 : (from + to) / 2;

    private static double? Worth(double? value) => value is { } v ? PublicView.Worth(v) : null;
}
