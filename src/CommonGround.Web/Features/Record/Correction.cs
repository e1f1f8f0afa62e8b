using CommonGround.Ecology.Taxa;
using CommonGround.Storage.Plantings;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>A saved sighting as somebody wants it to read.</summary>
public sealed record Correction
{
    /// <summary>The scientific name; of the whole planting, unless only this sighting is meant.</summary>
    public string Name { get; init; } = "";

    /// <summary>The taxon where <see cref="Name"/> is one that the catalogue does not list: a genus or an aggregate.</summary>
    public CatalogueTaxon? Unlisted { get; init; }
    public long BedId { get; init; }
    public string Patch { get; init; } = "";
    public DateOnly? ObservedOn { get; init; }
    public double? CoverSquareMetres { get; init; }
    public int? Count { get; init; }
    public int? GrowthStage { get; init; }
    public Origin Origin { get; init; }
    public Certainty Certainty { get; init; }
    public string Qualifier { get; init; } = "";
    public Finding Finding { get; init; }
    public string VerifiedBy { get; init; } = "";
    public string Remarks { get; init; } = "";

    /// <summary>Name, bed and patch of this sighting alone: on that one day somebody took it for another plant.</summary>
    public bool OnlyThis { get; init; }

    public const int LongestRemark = 4000, LongestChecker = 200;

    /// <summary>As it stands, for a form to begin with.</summary>
    public static Correction Of(Sighting s, string scientificName)
    {
        ArgumentNullException.ThrowIfNull(s);
        return new()
        {
            Name = scientificName,
            BedId = s.BedId,
            Patch = s.Patch,
            ObservedOn = s.ObservedOn,
            CoverSquareMetres = s.CoverDerived || s.CoverSquareMetres == 0 ? null : s.CoverSquareMetres,
            Count = s.Count,
            GrowthStage = s.GrowthStage,
            Origin = s.Origin,
            Certainty = s.Certainty,
            Qualifier = s.Qualifier,
            Finding = s is { Finding: Finding.Growing, CoverSquareMetres: 0 } ? Finding.Ended : s.Finding,
            VerifiedBy = s.VerifiedBy,
            Remarks = s.Remarks,
        };
    }

    /// <summary>The same as a line, so that the rules of lines hold for it.</summary>
    public PlantingDraft Line(CatalogueTaxon? taxon) => new()
    {
        Typed = Name,
        Taxon = taxon,
        CoverSquareMetres = CoverSquareMetres,
        Count = Finding == Finding.Growing ? Count : null,
        GrowthStage = GrowthStage,
        Patch = Patch.Trim(),
        Finding = Finding,
    };

    public IEnumerable<Problem> CheckWords()
    {
        if (Remarks.Length > LongestRemark)
        {
            yield return new("remarks", $"A remark has at most {LongestRemark:#,0} letters.");
        }

        if (VerifiedBy.Length > LongestChecker)
        {
            yield return new("verified", $"A name has at most {LongestChecker} letters.");
        }

        if (Qualifier is not ("" or "cf." or "aff."))
        {
            yield return new("certainty", "Doubt in the name is cf., aff. or nothing.");
        }

        if (Qualifier.Length > 0 && Certainty == Certainty.Certain)
        {
            yield return new(
                "certainty", $"A name with {Qualifier} cannot be certain: take {Qualifier} out, or say probable or tentative.");
        }
    }
}
