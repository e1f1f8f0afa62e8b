using CommonGround.Ecology.Taxa;

namespace CommonGround.DemoData;

/// <summary>Which plants people here choose, and how often. Names are those of the catalogue; a name it does not list stops the
/// generator.</summary>
internal sealed class Palette
{
    private const double Favourite = 6, Regular = 2.5, Rare = 0.15;

    private static readonly string[] Favourites =
    [
        "Echinacea purpurea", "Monarda fistulosa", "Rudbeckia hirta", "Asclepias tuberosa", "Asclepias incarnata", "Asclepias syriaca",
            "Symphyotrichum novae-angliae",
        "Symphyotrichum oblongifolium", "Solidago speciosa", "Penstemon digitalis", "Aquilegia canadensis", "Schizachyrium scoparium",
            "Panicum virgatum",
        "Coreopsis lanceolata", "Liatris spicata", "Rudbeckia fulgida", "Agastache foeniculum", "Tradescantia ohiensis", "Zizia aurea",
            "Geranium maculatum",
        "Phlox divaricata", "Heuchera richardsonii", "Carex pensylvanica", "Sporobolus heterolepis", "Allium cernuum",
            "Eutrochium maculatum", "Lobelia siphilitica",
        "Ratibida pinnata", "Baptisia alba", "Dalea purpurea", "Echinacea pallida", "Solidago flexicaulis", "Symphyotrichum cordifolium",
            "Polemonium reptans",
    ];

    private static readonly string[] Regulars =
    [
        "Amorpha canescens", "Anemone canadensis", "Anemone cylindrica", "Asarum canadense", "Arisaema triphyllum",
            "Asclepias verticillata", "Baptisia bracteata", "Bouteloua curtipendula",
        "Boltonia asteroides", "Campanula rotundifolia", "Carex blanda", "Carex muskingumensis", "Chelone glabra", "Coreopsis palmata",
            "Coreopsis tripteris", "Dalea candida",
        "Dodecatheon meadia", "Doellingeria umbellata", "Elymus canadensis", "Elymus hystrix", "Eryngium yuccifolium",
            "Eupatorium perfoliatum", "Euphorbia corollata",
        "Eurybia macrophylla", "Eutrochium purpureum", "Filipendula rubra", "Fragaria virginiana", "Gentiana andrewsii", "Geum triflorum",
            "Helenium autumnale",
        "Heliopsis helianthoides", "Hydrophyllum virginianum", "Iris virginica", "Liatris aspera", "Liatris pycnostachya",
            "Lobelia cardinalis", "Maianthemum racemosum",
        "Mertensia virginica", "Monarda bradburiana", "Monarda punctata", "Packera aurea", "Parthenium integrifolium",
            "Penstemon hirsutus", "Phlox pilosa", "Physostegia virginiana",
        "Podophyllum peltatum", "Polygonatum biflorum", "Polystichum acrostichoides", "Pycnanthemum tenuifolium",
            "Pycnanthemum virginianum", "Rudbeckia subtomentosa",
        "Rudbeckia triloba", "Ruellia humilis", "Sanguinaria canadensis", "Silphium laciniatum", "Silphium perfoliatum",
            "Silphium terebinthinaceum", "Sisyrinchium angustifolium",
        "Solidago nemoralis", "Solidago rigida", "Solidago caesia", "Sorghastrum nutans", "Stylophorum diphyllum", "Symphyotrichum laeve",
            "Symphyotrichum oolentangiense",
        "Symphyotrichum shortii", "Thalictrum dioicum", "Tiarella cordifolia", "Uvularia grandiflora", "Verbena hastata",
            "Verbena stricta", "Vernonia fasciculata",
        "Veronicastrum virginicum", "Viola pedatifida", "Viola striata", "Zizia aptera", "Matteuccia struthiopteris", "Adiantum pedatum",
            "Chasmanthium latifolium",
    ];

    private static readonly string[] Shrubs =
    [
        "Aronia melanocarpa", "Ceanothus americanus", "Cornus racemosa", "Cornus sericea", "Corylus americana", "Diervilla lonicera",
            "Hydrangea arborescens", "Hypericum kalmianum",
        "Ilex verticillata", "Lindera benzoin", "Physocarpus opulifolius", "Rhus aromatica", "Rosa carolina", "Sambucus canadensis",
            "Spiraea alba", "Symphoricarpos albus",
        "Viburnum lentago", "Viburnum prunifolium", "Viburnum acerifolium", "Amelanchier laevis", "Cercis canadensis",
            "Parthenocissus quinquefolia",
    ];

    /// <summary>Trees that were there before the houses; they shade the bed they are recorded in.</summary>
    public static readonly string[] Relicts = ["Quercus macrocarpa", "Quercus alba", "Quercus rubra", "Quercus bicolor", "Tilia americana",
        "Ostrya virginiana", "Crataegus mollis", "Prunus serotina"];

    public static readonly string[] Ornamentals =
    [
        "Hosta plantaginea", "Hemerocallis fulva", "Paeonia lactiflora", "Iris germanica", "Narcissus pseudonarcissus",
            "Tulipa gesneriana", "Syringa vulgaris", "Lavandula angustifolia",
        "Salvia nemorosa", "Nepeta racemosa", "Hylotelephium spectabile", "Taxus cuspidata", "Convallaria majalis",
            "Pachysandra terminalis", "Vinca minor", "Muscari botryoides",
        "Monarda didyma", "Allium schoenoprasum", "Baptisia australis", "Lamprocapnos spectabilis", "Scilla siberica", "Viburnum dentatum",
    ];

    public static readonly string[] Turf = ["Poa pratensis", "Festuca rubra", "Lolium perenne", "Schedonorus arundinaceus"];

    /// <summary>Plants nobody plants and every yard has.</summary>
    public static readonly string[] Volunteers =
    [
        "Taraxacum officinale", "Trifolium repens", "Plantago major", "Medicago lupulina", "Prunella vulgaris", "Viola sororia",
            "Oxalis stricta", "Erigeron annuus",
        "Conyza canadensis", "Acalypha rhomboidea", "Juncus tenuis", "Stellaria media", "Cardamine hirsuta", "Capsella bursa-pastoris",
            "Solidago altissima", "Symphyotrichum pilosum",
    ];

    /// <summary>The old prairie's plants, as its household first wrote them down.</summary>
    public static readonly string[] OldPrairie =
    [
        "Andropogon gerardii", "Schizachyrium scoparium", "Sorghastrum nutans", "Sporobolus heterolepis", "Bouteloua curtipendula",
            "Koeleria macrantha", "Carex bicknellii", "Elymus canadensis",
        "Allium cernuum", "Amorpha canescens", "Anemone cylindrica", "Arnoglossum atriplicifolium", "Asclepias sullivantii",
            "Asclepias syriaca", "Asclepias tuberosa", "Asclepias verticillata",
        "Astragalus canadensis", "Baptisia alba", "Baptisia bracteata", "Ceanothus americanus", "Coreopsis palmata", "Coreopsis tripteris",
            "Dalea candida", "Dalea purpurea",
        "Desmodium canadense", "Dodecatheon meadia", "Drymocallis arguta", "Echinacea pallida", "Eryngium yuccifolium",
            "Euphorbia corollata", "Galium boreale", "Gentiana alba",
        "Geum triflorum", "Helianthus occidentalis", "Heuchera richardsonii", "Lespedeza capitata", "Liatris aspera",
            "Liatris pycnostachya", "Lilium philadelphicum", "Lithospermum canescens",
        "Lobelia spicata", "Monarda fistulosa", "Oenothera biennis", "Parthenium integrifolium", "Pedicularis canadensis",
            "Penstemon digitalis", "Phlox pilosa", "Polytaenia nuttallii",
        "Pycnanthemum tenuifolium", "Pycnanthemum virginianum", "Ratibida pinnata", "Rosa carolina", "Rudbeckia hirta",
            "Rudbeckia subtomentosa", "Silphium integrifolium",
        "Silphium laciniatum", "Silphium terebinthinaceum", "Sisyrinchium albidum", "Solidago nemoralis", "Solidago rigida",
            "Solidago speciosa", "Symphyotrichum ericoides",
        "Symphyotrichum laeve", "Symphyotrichum novae-angliae", "Symphyotrichum oolentangiense", "Tephrosia virginiana",
            "Tradescantia ohiensis", "Verbena stricta",
        "Veronicastrum virginicum", "Viola pedatifida", "Zizia aptera",
    ];

    /// <summary>Those of them that seed about freely.</summary>
    public static readonly string[] SeedAbout =
    [
        "Ratibida pinnata", "Rudbeckia hirta", "Rudbeckia subtomentosa", "Monarda fistulosa", "Penstemon digitalis", "Asclepias syriaca",
            "Asclepias tuberosa", "Oenothera biennis",
        "Echinacea pallida", "Solidago rigida", "Solidago speciosa", "Solidago nemoralis", "Symphyotrichum novae-angliae",
            "Symphyotrichum laeve", "Symphyotrichum ericoides",
        "Schizachyrium scoparium", "Andropogon gerardii", "Sorghastrum nutans", "Elymus canadensis", "Allium cernuum",
            "Coreopsis tripteris", "Desmodium canadense",
        "Silphium integrifolium", "Liatris aspera", "Pycnanthemum virginianum", "Verbena stricta", "Tradescantia ohiensis", "Zizia aptera",
            "Astragalus canadensis", "Arnoglossum atriplicifolium",
    ];

    /// <summary>Natives nobody brings into a garden: they burn, poison, overrun it, or want open water.</summary>
    private static readonly HashSet<string> Unplanted =
    [
        "Toxicodendron radicans", "Cicuta maculata", "Ambrosia artemisiifolia", "Ambrosia trifida", "Urtica gracilis",
            "Laportea canadensis", "Phytolacca americana", "Solanum carolinense",
        "Solanum ptychanthum", "Persicaria pensylvanica", "Euphorbia maculata", "Heracleum maximum", "Echinocystis lobata",
            "Calystegia sepium", "Lactuca canadensis", "Sium suave",
        "Sagittaria latifolia", "Alisma subcordatum", "Saururus cernuus", "Acorus americanus", "Helianthus tuberosus",
            "Erigeron strigosus", "Verbena urticifolia", "Hackelia virginiana",
        "Typha latifolia", "Nuphar advena", "Cryptotaenia canadensis", "Geum canadense", "Sanicula odorata", "Phryma leptostachya",
            "Impatiens pallida", "Conyza canadensis", "Solidago altissima", "Symphyotrichum pilosum",
    ];

    private readonly Dictionary<string, CatalogueTaxon> taxa;
    private readonly List<(CatalogueTaxon Item, double Weight)> natives = [];
    private readonly List<(CatalogueTaxon Item, double Weight)> shrubs;

    public Palette(IEnumerable<CatalogueTaxon> catalogue)
    {
        taxa = catalogue.ToDictionary(t => t.ScientificName, StringComparer.Ordinal);
        var (favourites, regulars) = (Favourites.ToHashSet(), Regulars.ToHashSet());
        foreach (var name in Favourites.Concat(Regulars)) Named(name);
        foreach (var taxon in taxa.Values.OrderBy(t => t.ScientificName, StringComparer.Ordinal))
        {
            if (taxon.Nativity != Nativity.Native || Unplanted.Contains(taxon.ScientificName)) continue;
            if (taxon.LifeForm is not (LifeForm.Forb or LifeForm.Legume or LifeForm.Grass or LifeForm.Sedge or LifeForm.Fern)) continue;
            if (NobodyBuys(taxon) && !favourites.Contains(taxon.ScientificName) && !regulars.Contains(taxon.ScientificName)) continue;
            var weight = favourites.Contains(taxon.ScientificName) ? Favourite : regulars.Contains(taxon.ScientificName) ? Regular : Rare;
            natives.Add((taxon, weight));
        }
        shrubs = [.. Shrubs.Select(name => (Named(name), 1.0))];
    }

    /// <summary>Weeds of disturbed ground (C 0) come by themselves, and no nursery sells what kills.</summary>
    private static bool NobodyBuys(CatalogueTaxon taxon) => taxon.C < 1 || taxon.ToxicityClasses.Contains(ToxicityClass.DeadlyToPeople);

    public CatalogueTaxon Named(string name) => taxa.TryGetValue(name, out var taxon) ? taxon
        : throw new InvalidOperationException($"The catalogue does not list {name}.");

    /// <summary>Natives that grow at this light and moisture, with how often they are chosen.</summary>
    public List<(CatalogueTaxon Item, double Weight)> For(Light light, Moisture moisture) =>
        [.. natives.Where(n => Suits(n.Item, light, moisture))];

    public List<(CatalogueTaxon Item, double Weight)> ShrubsFor(Light light, Moisture moisture) =>
        [.. shrubs.Where(n => Suits(n.Item, light, moisture))];

    public static bool Suits(CatalogueTaxon taxon, Light light, Moisture moisture) => taxon.Light.Contains(light)
        && taxon.Moisture.Contains(moisture);
}
