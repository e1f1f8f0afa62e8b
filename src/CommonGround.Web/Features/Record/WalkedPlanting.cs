using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Walks;
using CommonGround.Storage.Plantings;

namespace CommonGround.Web.Features.Record;

/// <summary>What a day's sighting of a planting comes to, from what was known before and what was said that day; pure.</summary>
internal sealed record WalkedPlanting
{
    public Finding Finding { get; init; }
    public double CoverSquareMetres { get; init; }
    public int? Count { get; init; }
    public bool CoverDerived { get; init; }
    public int? GrowthStage { get; init; }
    public Origin Origin { get; init; }
    public Certainty Certainty { get; init; }
    public string Qualifier { get; init; } = "";
    public string VerifiedBy { get; init; } = "";
    public string Remarks { get; init; } = "";
    public string PlaceInBed { get; init; } = "";
    public double? SeedCollectedGrams { get; init; }

    /// <summary>As it stands in the record.</summary>
    public static WalkedPlanting Of(Sighting s) => new()
    {
        Finding = s.Finding == Finding.Growing && s.CoverSquareMetres == 0 ? Finding.Ended : s.Finding,
        CoverSquareMetres = s.CoverSquareMetres,
        Count = s.Count,
        CoverDerived = s.CoverDerived,
        GrowthStage = s.GrowthStage,
        Origin = s.Origin,
        Certainty = s.Certainty,
        Qualifier = s.Qualifier,
        VerifiedBy = s.VerifiedBy,
        Remarks = s.Remarks,
        PlaceInBed = s.PlaceInBed,
        SeedCollectedGrams = s.SeedCollectedGrams,
    };

    /// <summary>By the rules of recording: what was not said stays as it was known; stage, remark and seed are of the day.</summary>
    /// <param name="before">The planting's last sighting before the day that found it growing, or where there is none the first after it,
    /// for its cover only.</param>
    /// <param name="said">What was said of the day, joined.</param>
    public static WalkedPlanting Of(Sighting? before, Sighting? after, LookSaid said, CatalogueTaxon? taxon)
    {
        var known = before is null ? null : KnownInBed.Known(before);
        var line = new PlantingDraft { Origin = said.Origin, Certainty = said.Certainty, Qualifier = said.Qualifier ?? "" };
        var finding = said.Finding ?? (said.CoverSquareMetres == 0 ? Finding.Ended : Finding.Growing);
        var (cover, count, derived) = finding != Finding.Growing ? (0, null, false) : Amount(before ?? after, said, taxon);
        return new()
        {
            Finding = finding,
            CoverSquareMetres = cover,
            Count = count,
            CoverDerived = derived,
            GrowthStage = said.GrowthStage,
            Origin = KnownPlanting.OriginOf(line, known),
            Certainty = KnownPlanting.CertaintyOf(line, known),
            Qualifier = said.Qualifier is "" ? "" : KnownPlanting.QualifierOf(line, known),
            VerifiedBy = said.VerifiedBy ?? KnownPlanting.VerifiedByOf(line, known),
            Remarks = said.Remark ?? "",
            PlaceInBed = said.Place ?? before?.PlaceInBed ?? "",
            SeedCollectedGrams = said.SeedCollectedGrams,
        };
    }

    /// <summary>What the record has become by another way than this: of an edit at the desk, an undo or a file, as a statement would say
    /// it.</summary>
    public LookSaid? ChangedInto(WalkedPlanting now)
    {
        var said = new LookSaid
        {
            Finding = now.Finding != Finding ? now.Finding : null,
            CoverSquareMetres = (now.CoverSquareMetres, now.Count) != (CoverSquareMetres, Count) && now.Finding == Finding.Growing
                ? now.CoverSquareMetres : null,
            Count = (now.CoverSquareMetres, now.Count) != (CoverSquareMetres, Count) && now.Finding == Finding.Growing ? now.Count : null,
            CoverDerived = now.CoverDerived != CoverDerived ? now.CoverDerived : null,
            GrowthStage = now.GrowthStage != GrowthStage ? now.GrowthStage : null,
            NoStage = GrowthStage is not null && now.GrowthStage is null,
            Origin = now.Origin != Origin ? now.Origin : null,
            Certainty = now.Certainty != Certainty ? now.Certainty : null,
            Qualifier = now.Qualifier != Qualifier ? now.Qualifier : null,
            VerifiedBy = now.VerifiedBy != VerifiedBy ? now.VerifiedBy : null,
            Remark = now.Remarks != Remarks ? now.Remarks : null,
            Place = now.PlaceInBed != PlaceInBed ? now.PlaceInBed : null,
            SeedCollectedGrams = now.SeedCollectedGrams != SeedCollectedGrams ? now.SeedCollectedGrams : null,
            NoSeed = SeedCollectedGrams is not null && now.SeedCollectedGrams is null,
        };
        return said == new LookSaid() ? null : said;
    }

    public void Fill(Sighting row)
    {
        (row.Finding, row.CoverSquareMetres, row.Count, row.CoverDerived) = (Finding, CoverSquareMetres, Count, CoverDerived);
        (row.GrowthStage, row.Origin, row.Certainty, row.Qualifier) = (GrowthStage, Origin, Certainty, Qualifier);
        (row.VerifiedBy, row.Remarks, row.PlaceInBed, row.SeedCollectedGrams) = (VerifiedBy, Remarks, PlaceInBed, SeedCollectedGrams);
    }

    private static (double Cover, int? Count, bool Derived) Amount(Sighting? known, LookSaid said, CatalogueTaxon? taxon) =>
        said.CoverSquareMetres is { } cover ? (cover, said.Count, said.CoverDerived ?? false)
        : said.Count is { } count && taxon is not null && PlantingDraft.CoverFromCount(count, taxon) is { } derived ? (derived, count, true)
        : known is null ? (0, null, false) : (known.CoverSquareMetres, known.Count, known.CoverDerived);
}
