using System.Globalization;

namespace CommonGround.Planning.Conversion;

/// <summary>When money is short: how much ground it is enough for this year, and the rest next year.</summary>
internal static class MixMoneyAdvice
{
    public const double Work = 0.6;

    /// <summary>Null when money is not what is short.</summary>
    public static NoMix? Of(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        if (request.Budget is not { } budget || LeastMoney(request with { Budget = null }, surroundings, prices) is not { } least)
            return null;
        var area = request.SquareMetres;
        var enough = Math.Floor(10 * area * budget / least) / 10;
        var low = Largest(request, surroundings, prices);
        var spend = string.Create(CultureInfo.InvariantCulture, $"No more than {budget:0.00} is to be spent on seed and plants.");
        var raise = string.Create(CultureInfo.InvariantCulture, $"Raise the budget from {budget:0.##} to {Math.Ceiling(least - 1e-9):0}");
        var others = "Or ask neighbours for plants: a clump lifted and divided costs nothing.";
        if (low < 1)
        {
            var short1 =
                string.Create(
                CultureInfo.InvariantCulture, $"{budget:0.00} is not enough for {area:0.#} m²; enough for {enough:0.#} m² at the same "
                    + $"price, and that is no planting.");
            var raised = request with { Budget = Math.Ceiling(least - 1e-9) };
            return new([short1,
                spend, $"The least that makes a sound mix of {area.ToString("0.#", CultureInfo.InvariantCulture)} m² costs "
                    + $"{least.ToString("0.00", CultureInfo.InvariantCulture)}."], [raise + ".", others], raised);
        }

        var rest = area - low;
        var words = string.Create(
            CultureInfo.InvariantCulture, $"Do {low} m² well this year and the other {rest:0.#} m² next year; a thin {area:0.#} m² is a "
                + $"weed patch.");
        var said = string.Create(CultureInfo.InvariantCulture, $"{budget:0.00} is not enough for {area:0.#} m²; enough for {low} m².");
        return new([said, spend], [words, raise + " to do all of it now.", others], Cut(request, low));
    }

    /// <summary>
    /// Whole square metres, less than all, that the money is enough for; 0 when it is enough for none. Within a class of size money rises
    /// with the ground, but not across: smaller ground may be all plugs, and larger ground takes more packets.
    /// </summary>
    private static int Largest(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var top = (int)Math.Ceiling(request.SquareMetres) - 1;
        foreach (var least in MixSite.ClassesFrom.Where(c => c <= top).OrderDescending())
        {
            if (IsPossible(Cut(request, least), surroundings, prices))
            {
                var (low, high) = (least, top);
                while (low < high)
                {
                    var middle = (low + high + 1) / 2;
                    if (IsPossible(Cut(request, middle), surroundings, prices)) low = middle;
                    else high = middle - 1;
                }

                return low;
            }

            top = least - 1;
        }

        return 0;
    }

    /// <summary>What the cheapest sound mix costs; null when no money is enough, or it cannot be found.</summary>
    public static double? LeastMoney(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var candidates = ConversionCandidates.Of(request, surroundings.Catalogue);
        foreach (var (site, _) in ConversionPlanner.Ladder(request with { Budget = null }))
        {
            // With any budget the planted band of wet ground may be left out.
            var model = new MixModel(site with { Request = site.Request with { Budget = 1e9 } }, candidates, surroundings, prices);
            if (LinearSolver.Least(model.Linear, model.Cost, Work) is { } cents) return cents / (double)MixModel.Cents;
        }

        return null;
    }

    /// <summary>The first so many square metres of the areas, in their order; an area that is cut loses its outline.</summary>
    public static ConversionRequest Cut(ConversionRequest request, double squareMetres)
    {
        var areas = new List<ConversionArea>();
        foreach (var area in request.Areas)
        {
            var take = Math.Min(area.SquareMetres, squareMetres - areas.Sum(a => a.SquareMetres));
            if (take > 1e-9) areas.Add(take < area.SquareMetres ? new(area.Name, take, []) : area);
        }

        return request with { Areas = areas };
    }

    private static bool IsPossible(ConversionRequest request, ConversionSurroundings surroundings, PriceTable prices)
    {
        var candidates = ConversionCandidates.Of(request, surroundings.Catalogue);
        foreach (var (site, _) in ConversionPlanner.Ladder(request))
        {
            if (LinearSolver.IsPossible(new MixModel(site, candidates, surroundings, prices).Linear, _ => true, Work) == true) return true;
            var free = site with { Request = request with { Budget = null } };
            if (LinearSolver.IsPossible(new MixModel(free, candidates, surroundings, prices).Linear, _ => true, Work) == true) return false;
        }

        return false;
    }
}
