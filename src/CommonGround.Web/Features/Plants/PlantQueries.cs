using System.Globalization;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Plants;

/// <summary>What somebody looks for in the catalogue; an empty filter lets every taxon through.</summary>
public sealed record PlantFilter
{
    public string Text { get; init; } = "";
    public int? InFlower { get; init; }
    public Light? Light { get; init; }
    public Moisture? Moisture { get; init; }
    public string Kind { get; init; } = "native";
    public double? HeightUpToMetres { get; init; }
    public bool GrowsHere { get; init; }

    /// <summary>As an address asks for it; what is no such choice is left out.</summary>
    public static PlantFilter Asked(string? name, string? kind, string? flower, string? light, string? moisture, string? height,
        string? here) => new()
        {
            Text = name ?? "",
            Kind = kind is "introduced" or "unwanted" or "all" ? kind : "native",
            InFlower = int.TryParse(flower, CultureInfo.InvariantCulture, out var half) && half is >= 0 and < HalfMonth.Count ? half : null,
            Light = Enum.TryParse<Light>(light, ignoreCase: true, out var l) && Enum.IsDefined(l) ? l : null,
            Moisture = Enum.TryParse<Moisture>(moisture, ignoreCase: true, out var m) && Enum.IsDefined(m) ? m : null,
            HeightUpToMetres = double.TryParse(height, CultureInfo.InvariantCulture, out var h) && h > 0 ? h : null,
            GrowsHere = here == "true",
        };
}

/// <summary>How a taxon stands in the neighbourhood.</summary>
public sealed record PlantHere(int Yards, int Blocks, double CoverSquareMetres, double TentativeSquareMetres);

/// <summary>A plant's page.</summary>
/// <param name="Kin">Others of its genus.</param>
/// <param name="LookAlikes">Plants it is taken for where one of the two does harm.</param>
/// <param name="Visitors">Who was seen on it.</param>
public sealed record PlantView(CatalogueTaxon Taxon, PlantHere Here, IReadOnlyList<CatalogueTaxon> Kin, IReadOnlyList<PlantFact> Facts,
    IReadOnlyList<CatalogueTaxon> LookAlikes, PlantVisitorNames Visitors);

/// <summary>Reads the catalogue beside what grows.</summary>
public sealed class PlantQueries(LiveCommunity live, VisitorQueries visitors, PlantKnowledge plants)
{
    public async Task<IReadOnlyList<(CatalogueTaxon Taxon, PlantHere Here)>> FindAsync(PlantFilter filter, bool organiser,
        CancellationToken cancel = default)
    {
        var loaded = await live.LoadedAsync(cancel);
        var figures = await live.FiguresAsync(organiser, cancel);
        var matrix = figures.Matrix;
        var here = Here(figures);
        IEnumerable<CatalogueTaxon> taxa = filter.Text.Trim().Length > 0
            ? loaded.Names.Suggest(filter.Text, 60).Select(s => s.Taxon).Distinct()
            : matrix.Taxa.OrderBy(t => t.DisplayName, StringComparer.OrdinalIgnoreCase);
        var index = matrix.Taxa.Index().ToDictionary(p => p.Item.ScientificName, p => p.Index, StringComparer.Ordinal);
        return [.. taxa.Where(t => Passes(t, filter)).Select(t => (t, here[index[t.ScientificName]])).Where(t => !filter.GrowsHere
            || t.Item2.Yards > 0)];
    }

    public async Task<PlantView?> GetAsync(string slug, bool organiser, Units units, CancellationToken cancel = default)
    {
        var figures = await live.FiguresAsync(organiser, cancel);
        var matrix = figures.Matrix;
        var at = matrix.Taxa.Index().Where(p => PlantLink.Slug(p.Item.ScientificName) == slug).Select(p => (int?)p.Index).FirstOrDefault();
        if (at is not { } found)
        {
            return null;
        }

        var taxon = matrix.Taxa[found];
        var genus = taxon.ScientificName.Split(' ')[0];
        var kin = matrix.Taxa.Where(t => t != taxon && t.ScientificName.StartsWith(genus + " ", StringComparison.Ordinal))
            .OrderBy(t => t.ScientificName, StringComparer.Ordinal).Take(6).ToList();
        return new PlantView(taxon, Here(figures)[found], kin,
            [.. PlantFacts.Of(taxon, matrix.Taxa, units), .. PlantFacts.OfMix(plants.Of(matrix.Taxa).Catalogue[found].Mix)],
            [.. taxon.LookAlikes.Select(name => matrix.Taxa.FirstOrDefault(t => t.ScientificName == name)).OfType<CatalogueTaxon>()],
                visitors.OfPlant(taxon, matrix.Taxa));
    }

    /// <summary>How each taxon of the matrix stands here, as far as the reader may know.</summary>
    internal static PlantHere[] Here(Figures figures)
    {
        var matrix = figures.Matrix;
        var yards = new int[matrix.Taxa.Count];
        var cover = new double[matrix.Taxa.Count];
        var tentative = new double[matrix.Taxa.Count];
        var blocks = new HashSet<int>[matrix.Taxa.Count];
        foreach (var yard in matrix.Yards)
        {
            foreach (var presence in yard.Presences)
            {
                yards[presence.Taxon]++;
                cover[presence.Taxon] += presence.CoverSquareMetres;
                tentative[presence.Taxon] += presence.CoverSquareMetres - presence.CertainSquareMetres;
                (blocks[presence.Taxon] ??= []).Add(yard.Block);
            }
        }

        return [.. Enumerable.Range(0, yards.Length).Select(i => !figures.IsPublic || yards[i] >= Figures.YardsToShow
            ? new PlantHere(yards[i], blocks[i]?.Count ?? 0, figures.Told(cover[i]), figures.Told(tentative[i]))
            : new PlantHere(0, 0, 0, 0))];
    }

    private static bool Passes(CatalogueTaxon taxon, PlantFilter filter) =>
        (filter.InFlower is not { } t || taxon.Bloom?.Contains(t) == true)
        && (filter.Light is not { } light || taxon.Light.Contains(light))
        && (filter.Moisture is not { } moisture || taxon.Moisture.Contains(moisture))
        && (filter.HeightUpToMetres is not { } height || taxon.HeightForLimits <= height)
        && filter.Kind switch
        {
            "native" => taxon.Nativity == Nativity.Native,
            "unwanted" => taxon.ImpactRank != ImpactRank.Unranked
                || (taxon.Nativity == Nativity.Introduced && taxon.ControlStart is not null),
            "introduced" => taxon.Nativity == Nativity.Introduced,
            _ => true,
        };
}

/// <summary>Catalogue values in words.</summary>
public static class PlantWords
{
    public static string Of(Light light) => light switch { Light.FullSun => "full sun", Light.PartShade => "part shade", _ => "shade" };

    public static string Of(Moisture moisture) => moisture.ToString().ToLowerInvariant();

    public static string Of(Origin origin) => origin switch { Origin.SelfSown => "self-sown", _ => origin.ToString().ToLowerInvariant() };

    public static string Of(Certainty certainty) => certainty.ToString().ToLowerInvariant();

    /// <summary>"illinois_2020" as "Illinois 2020".</summary>
    public static string Region(string region) => Ecology.Regions.RegionalTables.NameOf(region);

    public static string Of(WetlandIndicator indicator) => indicator switch
    {
        WetlandIndicator.Obligate => "almost always in wetlands (OBL)",
        WetlandIndicator.FacultativeWetland => "mostly in wetlands (FACW)",
        WetlandIndicator.Facultative => "as often in wetlands as not (FAC)",
        WetlandIndicator.FacultativeUpland => "mostly outside wetlands (FACU)",
        WetlandIndicator.Upland => "almost never in wetlands (UPL)",
        _ => "",
    };

    public static string Of(PlantCommunity community) => community switch
    {
        PlantCommunity.Disturbed => "disturbed ground",
        PlantCommunity.Garden => "gardens",
        _ => community.ToString().ToLowerInvariant()
    };

    /// <summary>A class of harm as a heading.</summary>
    public static string Of(ToxicityClass harm) => harm switch
    {
        ToxicityClass.DeadlyToPeople => "Deadly to people",
        ToxicityClass.PoisonousIfEaten => "Poisonous if eaten",
        ToxicityClass.HarmsSkinOrEyes => "Harms skin or eyes",
        _ => "Harms pets or stock",
    };

    public static string Of(LifeForm form) => form.ToString().ToLowerInvariant();

    /// <summary>BBCH principal growth stages in a gardener's words (Meier 2001, table 1).</summary>
    public static string Stage(int? stage) => stage switch
    {
        null => "–",
        0 => "sprouting",
        1 or 2 or 3 => "in leaf",
        4 => "full leaf",
        5 => "in bud",
        6 => "flowering",
        7 => "fruit",
        8 => "ripe seed",
        _ => "dormant",
    };

    public static string Of(Finding finding) => finding switch
    {
        Finding.Ended => "ended",
        Finding.Died => "dead",
        Finding.NotFound => "not found this time",
        _ => "growing"
    };

    /// <summary>"by the gate" as it is, a bare number as "patch 2".</summary>
    public static string Patch(string label) => label.Length > 0 && label.All(char.IsAsciiDigit) ? "patch " + label : label;

    public static string Height(CatalogueTaxon taxon, Units units) => (taxon.HeightMinMetres, taxon.HeightMaxMetres) switch
    {
        ({ } low, { } high) when low < high => $"{units.LengthWords(low)[..^(units.Customary ? 3 : 2)]}–{units.LengthWords(high)}",
        (_, { } high) => units.LengthWords(high),
        ({ } low, _) => $"from {units.LengthWords(low)}",
        _ => "–",
    };
}
