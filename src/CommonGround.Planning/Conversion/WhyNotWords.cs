namespace CommonGround.Planning.Conversion;

/// <summary>Why a taxon is not offered, in words.</summary>
public static class WhyNotWords
{
    /// <summary>Words that follow a taxon's name and a colon.</summary>
    public static string Of(WhyNot why) => why switch
    {
        WhyNot.NotNative => "not native to the region",
        WhyNot.ListedByLaw => "named on a weed list of the state",
        WhyNot.ImpactRank => "ranked as harmful to native vegetation",
        WhyNot.WrongForm => "a tree, vine, turf grass or of unknown form",
        WhyNot.LightUnknown => "the light it wants is not known",
        WhyNot.LightUnsuited => "wants other light",
        WhyNot.MoistureUnknown => "the soil moisture it wants is not known",
        WhyNot.MoistureUnsuited => "wants other soil moisture",
        WhyNot.NotRoot => "neither its seed count nor its spacing is known, so it cannot be counted",
        WhyNot.Toxic => "has a toxicity note, and children or pets chew plants here",
        WhyNot.HeightUnknown => "its height is not known, and there is a height limit",
        WhyNot.TooTall => "grows taller than the height limit",
        WhyNot.TooTallForLook => "too tall for an ordered planting, or its height is not known",
        WhyNot.Never => "on the list of taxa not wanted",
        WhyNot.NoTraits => "how it behaves in a planting is not known; ask for it by name to have it",
        WhyNot.AdvisedAgainst => "advised against: read its caution; ask for it by name to have it",
        WhyNot.HarmsPeople => "deadly if eaten, or burns the skin: nothing to plant where people pass; read its page",
        WhyNot.ComesByItself => "comes in by itself (C below 2)",
        WhyNot.IntroducedHere => "the region’s table has it as introduced",
        WhyNot.OtherCommunity => "grows with other plants than these: prairie and woodland are not mixed",
        WhyNot.Woody => "a shrub: placed by hand, not mixed",
        WhyNot.FernInSun => "a fern, for shade only",
        WhyNot.WoodlandInSun => "a spring flower of woods",
        WhyNot.NotToBeHad => "growers do not sell it",
        WhyNot.RareInTrade => "rare in trade; below 30 m² only when asked for by name",
        WhyNot.TooTallForSize => "too tall for a planting of this size",
        WhyNot.Aggressive => "spreads too hard for a planting of this size",
        WhyNot.NotTidy => "not tidy enough for a small bed",
        WhyNot.ShortLived => "too short-lived for a small bed",
        WhyNot.WantsMoist => "wants moist ground all summer",
        WhyNot.NotOnSand => "does not hold on sand",
        WhyNot.WantsDrained => "wants ground that drains, not clay",
        WhyNot.NotInDry => "fails in dry ground",
        WhyNot.MustNotDryOut => "must never dry out",
        WhyNot.WetlandPlant => "a wetland plant",
        WhyNot.UplandPlant => "an upland plant",
        WhyNot.StandingWater => "for standing water and seeps only",
        WhyNot.DeepSandOnly => "for deep sand only",
        WhyNot.Kerb => "not beside a walk: paving drains, berries and spines are in the way",
        WhyNot.Salt => "does not stand road salt",
        WhyNot.Septic => "its roots may clog a septic field",
        WhyNot.Awns => "its barbed awns work into dogs",
        WhyNot.NotWhereChewed => "berries, crystals or spines, and children or pets chew plants here",
        _ => throw new ArgumentOutOfRangeException(nameof(why)),
    };
}
