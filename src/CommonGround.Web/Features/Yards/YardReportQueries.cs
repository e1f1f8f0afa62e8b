using CommonGround.Ecology.Pollinators;
using CommonGround.Ecology.Sites;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.GapFilling;
using CommonGround.Reports.YardReports;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Features.Streets;
using CommonGround.Web.Layout;

namespace CommonGround.Web.Features.Yards;

/// <summary>Gathers what a yard's report says: the same measures the yard's page shows.</summary>
public sealed class YardReportQueries(YardQueries yards, LiveCommunity live, VisitorQueries visitors, CurrentNeighbourhood neighbourhood,
    GroupClock clock)
{
    /// <summary>Null when there is no such yard or the reader may not see it.</summary>
    public async Task<YardReport?> GetAsync(string code, CurrentUser currentUser, CancellationToken cancel = default)
    {
        if (await yards.GetAsync(code, currentUser, cancel) is not { } view)
        {
            return null;
        }

        // Paper leaves the house: the street on it counts only the yards that share.
        var figures = await live.FiguresAsync(organiser: false, cancel);
        var matrix = figures.Matrix;
        var street = matrix.Streets.Index().First(s => s.Item.Name == view.Facts.Street).Index;
        var facts = view.Facts;
        var whole = await live.NowAsync(cancel);
        var pressure = whole.PositionOf(facts.Id) is { } at ? PublicView.PressureOn(whole, whole.Yards[at], figures) : (double?)null;
        return new YardReport
        {
            Neighbourhood = neighbourhood.Name,
            Demo = neighbourhood.IsDemo,
            YardCode = facts.Code,
            Block = facts.Block,
            AsOf = clock.Today,
            BloomDates = Regions.BloomWords.Sentence(neighbourhood, figures.Dates),
            Table = Regions.RegionWords.Table(neighbourhood),
            Units = currentUser.Customary ? Units.UsCustomary : Units.Metric,
            Season = figures.Season,
            YardSquareMetres = facts.AreaSquareMetres,
            LawnSquareMetres = facts.LawnSquareMetres,
            Light = facts.Light,
            Moisture = facts.Moisture,
            SoilGroup = facts.SoilGroup,
            Beds = [.. view.Beds.Select(b => new ReportBed(b.Name, b.AreaSquareMetres,
                [.. b.Plantings.Select(p => new ReportPlanting(p.Taxon, p.CoverSquareMetres, p.Certainty, p.Origin, p.Qualifier,
                    p.CoverDerived))]))],
            Measures = view.Measures with { InvasivePressureSquareMetres = pressure },
            Street = new ReportStreet(facts.Street, matrix.BlocksOfStreet(street).Count, figures.Streets[street]),
            Suggestions = Suggestions(facts, Present(view), view.Measures, figures, visitors.Of(figures.Matrix.Taxa), Suggested),
            Visitors = await visitors.OfYardAsync(view, cancel),
            Infestations = [.. view.Infestations.Select(i => new ReportInfestation(i.Taxon, i.AreaSquareMetres, i.CoverPercent,
                i.ObservedOn))],
            History = [.. view.History.Select(h => new ReportSeason(h.AsOf, h.Measures, h.CoverSquareMetres))],
        };
    }

    private const int Suggested = 8;

    private static HashSet<string> Present(YardView view) =>
        view.Beds.SelectMany(b => b.Plantings).Select(p => p.Taxon.ScientificName).ToHashSet(StringComparer.Ordinal);

    /// <summary>Plants that close a yard's gaps one after the other.</summary>
    public static IReadOnlyList<GapSuggestion> Suggestions(YardFacts facts, IReadOnlySet<string> present, SiteMeasures measures,
        Figures figures, ForageIndex forage, int count)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(figures);
        var site = new GrowingSite(facts.Light, facts.Moisture, TallestMetres: 1.5);
        return GapSuggestions.For(figures.Matrix.Taxa, present, Figures.InFlower(measures), figures.Season, site,
            StreetQueries.Nearby(figures.Matrix), count, forage);
    }
}
