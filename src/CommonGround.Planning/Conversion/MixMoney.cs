using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>What the mix costs in cents: nobody buys less than a packet of seed, and half plugs are not sold.</summary>
internal static class MixMoney
{
    /// <summary>Grass seed is sold in packets so many times the size of flowers'.</summary>
    public const double GrassPackets = 3;

    /// <summary>Least grams of live seed that can be bought of a taxon.</summary>
    public static double Packet(CatalogueTaxon taxon, PriceTable prices) =>
        prices.PacketGrams * ((taxon.Mix?.IsGrass ?? taxon.LifeForm is LifeForm.Grass or LifeForm.Sedge) ? GrassPackets : 1);

    public static void Add(MixModel mix)
    {
        var (site, linear, prices) = (mix.Site, mix.Linear, mix.Prices);
        var sown = SownBehindBand(mix);
        foreach (var t in mix.Pool)
        {
            if (t.CanBeSown)
            {
                var perGram = Pricing.Unit(t.Taxon, PlantedAs.Seed, prices) * MixModel.Cents;
                var perStep = perGram * site.GramsPerStep(t.Taxon.SeedsPerGram!.Value);
                var least = (long)Math.Ceiling((perGram * Packet(t.Taxon, prices)) - 1e-9);
                t.Pay = linear.Variable((long)Math.Ceiling(site.Rate * perStep) + least + 2);
                // Thousandths of a cent, rounded up, so that the money spent never passes the model's.
                var (whole, behind) = ((long)Math.Ceiling(perStep * 1000), (long)Math.Ceiling(perStep * sown * 1000));
                linear.AtLeast([new(t.Pay, 1000), new(t.Seeds, -behind)], 0);
                // Without a band all ground is sown.
                if (whole > behind)
                    linear.AtLeast([new(t.Pay, 1000), new(t.Seeds, -whole), new(mix.Band, (whole - behind) * site.Rate)], 0);
                linear.AtLeast([new(t.Pay, 1), new(t.Sown, -least)], 0);
                mix.Cost.Add(new(t.Pay, 1));
            }

            if (t.CanBePlanted)
                mix.Cost.Add(new(t.Plugs, (long)Math.Ceiling((Pricing.Unit(t.Taxon, PlantedAs.Plug, prices) * MixModel.Cents) - 1e-9)));
        }

        if (site.Request.Budget is not { } budget) return;
        linear.Now = new(LimitKind.Budget);
        linear.AtMost(mix.Cost, (long)Math.Floor((budget * MixModel.Cents) + 1e-9));
        linear.Now = null;
    }

    /// <summary>Share of the ground that is sown where there is a planted band, never less than will be: the band at its
    /// smallest.</summary>
    private static double SownBehindBand(MixModel mix)
    {
        var site = mix.Site;
        if (mix.Band < 0 || site.Rate == 0) return 1;
        var smallest = Enumerable.Range(PlugRules.FewestInBand, Math.Max(1, site.Plugs - PlugRules.FewestInBand + 1))
            .Min(plugs => PlantedBand.SquareMetres(site.Request, site.Method, plugs, sown: true));
        return 1 - (smallest / site.SquareMetres);
    }
}
