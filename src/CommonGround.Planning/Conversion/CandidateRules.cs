using CommonGround.Ecology.Taxa;

namespace CommonGround.Planning.Conversion;

/// <summary>Who may be offered. Sections are those of docs/measures.md#mix; from memory and common practice unless it says
/// otherwise.</summary>
internal static class CandidateRules
{
    /// <summary>Only for meadows of an acre and more.</summary>
    private const double AggressiveFrom = 4000;
    private const double SmallBed = 10, Bed = 30, FrontYard = 100, Meadow = 1000;
    private const double LowestC = GapFilling.GapSuggestions.LowestC;
    private const string Region = "chicago_region_2017";

    /// <summary>Spring flowers that grow in open prairie.</summary>
    private static readonly HashSet<string> SpringOfPrairie = ["Dodecatheon meadia", "Camassia scilloides"];

    /// <summary>The ground and the household's own limits: these hold for must-haves too.</summary>
    public static IReadOnlyList<WhyNot> Firm(ConversionRequest request, CatalogueTaxon taxon)
    {
        var found = new List<WhyNot>();
        void When(bool holds, WhyNot why)
        {
            if (holds) found.Add(why);
        }

        var tall = Tall(taxon);
        When(taxon.Nativity != Nativity.Native, WhyNot.NotNative);
        When(taxon.Regional is { IsListedByLaw: true }, WhyNot.ListedByLaw);
        When(taxon.ImpactRank != ImpactRank.Unranked, WhyNot.ImpactRank);
        When(taxon.LifeForm is LifeForm.Tree or LifeForm.Vine or LifeForm.Turf or LifeForm.Unknown, WhyNot.WrongForm);
        When(taxon.Light.Count == 0, WhyNot.LightUnknown);
        When(taxon.Light.Count > 0 && !taxon.Light.Contains(request.Light), WhyNot.LightUnsuited);
        When(taxon.Moisture.Count == 0, WhyNot.MoistureUnknown);
        When(taxon.Moisture.Count > 0 && !taxon.Moisture.Any(m => Fits(request, taxon, m)), WhyNot.MoistureUnsuited);
        When(ToxicityGrades.IsKeptOut(taxon, request.KeptOut), WhyNot.Toxic);
        When(request.TallestMetres is not null && tall is null, WhyNot.HeightUnknown);
        When(tall > request.TallestMetres, WhyNot.TooTall);
        When(request.Look == Look.Ordered && !(tall <= ConversionConvention.OrderedTallestMetres), WhyNot.TooTallForLook);
        When(request.Never.Contains(taxon.ScientificName, StringComparer.Ordinal), WhyNot.Never);
        return found;
    }

    /// <summary>Good practice: what is asked for by name may go past it.</summary>
    public static IReadOnlyList<WhyNot> Advice(ConversionRequest request, CatalogueTaxon taxon)
    {
        IReadOnlyList<WhyNot> found = taxon.Mix is not { } traits ? [WhyNot.NoTraits]
            : [.. Kind(request, taxon, traits), .. Ground(request, taxon, traits), .. Size(request, taxon, traits)];
        // Nobody is invited to ask for a plant that kills or burns.
        return ToxicityGrades.Gravest(taxon) is ToxicityClass.DeadlyToPeople or ToxicityClass.HarmsSkinOrEyes
            ? [.. found.Select(w => w is WhyNot.NoTraits or WhyNot.AdvisedAgainst ? WhyNot.HarmsPeople : w)] : found;
    }

    /// <summary>Traits of a must-have nobody has described: slow, long-lived, planted thinly.</summary>
    public static MixTraits Guessed(CatalogueTaxon taxon) => new()
    {
        ScientificName = taxon.ScientificName,
        Role = taxon.LifeForm switch
        {
            LifeForm.Grass => MixRole.CoolSeason,
            LifeForm.Sedge => MixRole.MatrixLow,
            LifeForm.Legume => MixRole.Legume,
            LifeForm.Shrub => MixRole.Woody,
            LifeForm.Fern => MixRole.Fern,
            _ => taxon.HeightMaxMetres switch { <= 0.6 => MixRole.GroundForb, >= 1.5 => MixRole.Structural, _ => MixRole.Seasonal },
        },
        Spread = Spreading.Slow,
        FromSeed = FromSeed.Slow,
        MostSeedsPerSquareFoot = 0.5,
        Basis = "guessed from its form",
    };

    /// <summary>The height a limit must reckon with: the taller figure where two sources disagree, unless the mix's own third one sides
    /// with the catalogue.</summary>
    public static double? Tall(CatalogueTaxon taxon) =>
        taxon.Mix?.HeightMaxMetres is { } third && third >= taxon.HeightMaxMetres ? third
            : new[] { taxon.HeightForLimits, taxon.Mix?.HeightMaxMetres }.Max();

    private static bool Fits(ConversionRequest request, CatalogueTaxon taxon, Moisture moisture) =>
        moisture == request.Moisture
        || (request.Kerb && request.Moisture == Moisture.Medium && moisture == Moisture.Dry)
        || (request is { Light: Light.Shade, Moisture: Moisture.Dry } && moisture == Moisture.Medium
            && taxon.Mix is { Wetland: WetlandIndicator.FacultativeUpland or WetlandIndicator.Upland });

    private static IEnumerable<WhyNot> Kind(ConversionRequest request, CatalogueTaxon taxon, MixTraits traits)
    {
        if (traits.Role is MixRole.Tree or MixRole.Vine or MixRole.Weed or MixRole.WetForb || Never(traits.AdvisedAgainst))
            yield return WhyNot.AdvisedAgainst;
        if (traits.Role == MixRole.Woody) yield return WhyNot.Woody;
        if (taxon.Regional is null && traits.IntroducedTables.Contains(Region, StringComparer.Ordinal)) yield return WhyNot.IntroducedHere;
        if (taxon.C < LowestC && traits.Longevity != Longevity.AnnualBiennial) yield return WhyNot.ComesByItself;
        if (traits.Role == MixRole.Fern && request.Light != Light.Shade) yield return WhyNot.FernInSun;
        if (traits.Role == MixRole.Ephemeral && request.Light == Light.FullSun && !SpringOfPrairie.Contains(taxon.ScientificName))
            yield return WhyNot.WoodlandInSun;
        if (!SameCommunity(request, traits)) yield return WhyNot.OtherCommunity;
        if (traits.Trade == Trade.None) yield return WhyNot.NotToBeHad;
        if (traits.AdvisedAgainst == AdvisedAgainst.StandingWater) yield return WhyNot.StandingWater;
        if (traits.AdvisedAgainst == AdvisedAgainst.SandOnly && request.SoilTexture != SoilTexture.Sand) yield return WhyNot.DeepSandOnly;
        if (traits.Site == SiteNeed.Awns && request.KeptOut.Count > 0) yield return WhyNot.Awns;
        if ((traits.AdvisedAgainst is AdvisedAgainst.Berries or AdvisedAgainst.Crystals or AdvisedAgainst.Spines)
            && (request.KeptOut.Count > 0 || request.Kerb))
        {
            yield return request.KeptOut.Count > 0 ? WhyNot.NotWhereChewed : WhyNot.Kerb;
        }
    }

    /// <summary>Plants of open ground and plants of woods are not mixed: in full sun nothing that grows in woods alone, out of it nothing
    /// that never grows under trees.</summary>
    private static bool SameCommunity(ConversionRequest request, MixTraits traits)
    {
        var kinds = traits.Communities.Where(c => c is not ("disturbed" or "garden")).ToList();
        var open = kinds.Any(c => c is not "woodland");
        var shaded = kinds.Any(c => c is "woodland" or "savanna" or "shore" or "sedge_meadow");
        return kinds.Count == 0 || (request.Light == Light.FullSun ? open : shaded);
    }

    private static IEnumerable<WhyNot> Ground(ConversionRequest request, CatalogueTaxon taxon, MixTraits traits)
    {
        var (moisture, soil) = (request.Moisture, request.SoilTexture);
        var dryish = moisture is Moisture.Dry or Moisture.Medium;
        if (traits.Site == SiteNeed.MoistOnly && dryish && (soil != SoilTexture.Clay || moisture == Moisture.Dry))
            yield return WhyNot.WantsMoist;
        if (traits.Site == SiteNeed.NotSand && soil == SoilTexture.Sand) yield return WhyNot.NotOnSand;
        if (traits.Site == SiteNeed.NotDry && moisture == Moisture.Dry) yield return WhyNot.NotInDry;
        if (traits.Site == SiteNeed.Drained && soil == SoilTexture.Clay) yield return WhyNot.WantsDrained;
        if (traits.Site == SiteNeed.NeverDry && moisture != Moisture.Wet) yield return WhyNot.MustNotDryOut;
        if (request.Kerb && dryish && traits.IsWetland) yield return WhyNot.Kerb;
        if (request.Salt && traits.IsGrass && !traits.Salt) yield return WhyNot.Salt;
        if (request.Septic && (traits.IsWetland || traits.Role == MixRole.WarmTall
            || taxon.ScientificName.StartsWith("Silphium ", StringComparison.Ordinal)))
            yield return WhyNot.Septic;
        var wetland = (moisture == Moisture.Medium && (traits.Wetland == WetlandIndicator.Obligate
            || (traits.Wetland == WetlandIndicator.FacultativeWetland && traits.IsGrass)))
            || (moisture == Moisture.Dry && traits.IsWetland) || (dryish && traits.Role == MixRole.WetMatrix);
        if (wetland) yield return WhyNot.WetlandPlant;
        var upland = (moisture == Moisture.Wet && (traits.Wetland is WetlandIndicator.FacultativeUpland or WetlandIndicator.Upland))
            || (moisture == Moisture.Moist && traits.Wetland == WetlandIndicator.Upland);
        if (upland) yield return WhyNot.UplandPlant;
    }

    private static IEnumerable<WhyNot> Size(ConversionRequest request, CatalogueTaxon taxon, MixTraits traits)
    {
        var area = request.SquareMetres;
        var tall = Tall(taxon) ?? 9;
        var front = request.Moisture is Moisture.Dry or Moisture.Medium ? 1.5 : 1.8;
        var tooTall = (area < SmallBed && tall > 1.2) || (area < Bed && tall > 1.5)
            || (area < FrontYard && request.Light != Light.Shade && tall > front) || (area < Meadow && traits.Role == MixRole.WarmTall);
        if (tooTall) yield return WhyNot.TooTallForSize;
        var aggressive = (traits.AdvisedAgainst == AdvisedAgainst.AggressiveSmall && area < AggressiveFrom)
            || (area < FrontYard && traits.Spread == Spreading.AggressiveRhizome && traits.Role != MixRole.GroundForb)
            || (area < Bed && traits.IsAggressive && traits.Role is not (MixRole.GroundForb or MixRole.Seasonal))
            || (area < SmallBed && traits.IsAggressive);
        if (aggressive) yield return WhyNot.Aggressive;
        if (area < SmallBed && !traits.Kerb) yield return WhyNot.NotTidy;
        if (area < Bed && traits.Trade == Trade.Rare) yield return WhyNot.RareInTrade;
        if (area < SmallBed && traits.Longevity == Longevity.AnnualBiennial) yield return WhyNot.ShortLived;
    }

    private static bool Never(AdvisedAgainst advised) => advised is AdvisedAgainst.Weed or AdvisedAgainst.Deadly
        or AdvisedAgainst.LookalikeDeadly or AdvisedAgainst.LookalikePoison
        or AdvisedAgainst.MilkPoison or AdvisedAgainst.Phototoxic or AdvisedAgainst.LookalikePhototoxic or AdvisedAgainst.LookalikeInvasive
        or AdvisedAgainst.Sting
        or AdvisedAgainst.Irritant or AdvisedAgainst.ComesByItself or AdvisedAgainst.Listed or AdvisedAgainst.Aggressive
        or AdvisedAgainst.Hemiparasite
        or AdvisedAgainst.ThistleLaw or AdvisedAgainst.Thorns or AdvisedAgainst.Tree or AdvisedAgainst.RangeEdge;
}
