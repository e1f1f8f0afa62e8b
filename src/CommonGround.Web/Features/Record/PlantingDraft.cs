using CommonGround.Ecology.Taxa;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>What to do where the plant stands in the record of the same day already.</summary>
public enum SameDay { Ask, Together, InPlace }

/// <summary>One line somebody typed: a planting seen in a bed. What it does not say stays as it was known. The rules stand here once, for
/// the form and for files.</summary>
public sealed record PlantingDraft
{
    /// <summary>The name as typed, kept so that nothing typed is lost.</summary>
    public string Typed { get; init; } = "";
    public CatalogueTaxon? Taxon { get; init; }

    /// <summary>Recorded under a name the catalogue does not list: a genus, an aggregate or a plain name.</summary>
    public bool AsWritten { get; init; }
    public double? CoverSquareMetres { get; init; }

    /// <summary>The cover as typed, % of the bed; <see cref="CoverSquareMetres"/> is worked out from it where the bed is
    /// measured.</summary>
    public double? CoverPercent { get; init; }
    public int? Count { get; init; }
    public int? GrowthStage { get; init; }

    /// <summary>Null: as it was known, or planted.</summary>
    public Origin? Origin { get; init; }

    /// <summary>Null: as it was known, or certain.</summary>
    public Certainty? Certainty { get; init; }

    /// <summary>Empty: as it was known; a line that says certain takes it away.</summary>
    public string Qualifier { get; init; } = "";
    public string Remarks { get; init; } = "";
    public string Patch { get; init; } = "";
    public Finding Finding { get; init; }
    public SameDay SameDay { get; init; }

    /// <summary>Figures that can be read two ways.</summary>
    public string Unclear { get; init; } = "";

    /// <summary>The cover given, or worked out from the count; null when neither tells it.</summary>
    public double? Cover => Finding != Finding.Growing ? 0 : CoverSquareMetres
        ?? (Count is { } n && Taxon is not null ? CoverFromCount(n, Taxon) : null);

    public bool CoverDerived => Finding == Finding.Growing && CoverSquareMetres is null && Count is not null;

    /// <summary>Neither cover nor count is given: they stay as they were, where the planting is known.</summary>
    public bool KeepsCover => Finding == Finding.Growing && CoverSquareMetres is null && CoverPercent is null && Count is null
        && Unclear.Length == 0;

    /// <summary>The oldest year a record may bear, as in files.</summary>
    public const int FirstYear = 1800;

    /// <summary>Ground covered by plants set in triangles at the catalogue's spacing, 0.866·s² each; 0 for no plants; null without a
    /// spacing.</summary>
    public static double? CoverFromCount(int count, CatalogueTaxon taxon) => count == 0 ? 0
        : taxon.SpacingMetres is { } s ? count * 0.866 * s * s
        : null;

    /// <summary>What is wrong with the line, in plain words; empty when it can be saved.</summary>
    /// <param name="bedSquareMetres">The bed's area, or null while nobody has measured it.</param>
    /// <param name="knownSquareMetres">The planting's cover as it is known, or null where it is new.</param>
    public IReadOnlyList<Problem> Check(DateOnly observedOn, DateOnly today, double? bedSquareMetres, double yardSquareMetres,
        Units? units = null, double? knownSquareMetres = null)
    {
        units ??= new Units(Customary: false);
        var problems = new List<Problem>();
        if (Taxon is null)
        {
            problems.Add(new("name", Typed.Length == 0 ? "Type the plant's name."
                : $"The catalogue has no plant called “{Typed}”. Choose one of the names offered, or check the spelling."));
        }

        if (observedOn.Year < FirstYear)
        {
            problems.Add(new("date", $"Give the day it was seen; nothing here is older than {FirstYear}."));
        }
        else if (observedOn > today)
        {
            problems.Add(
                new("date", $"{Words.Date(observedOn)} is in the future. Give the day it was seen; today is {Words.Date(today)}."));
        }

        if (CheckCover(units, knownSquareMetres) is { } cover)
        {
            problems.Add(new("cover", cover));
        }

        if (Patch.Length > Storage.Plantings.Sighting.LongestPatch)
        {
            problems.Add(new("patch", $"A patch's label has at most {Storage.Plantings.Sighting.LongestPatch} letters."));
        }

        problems.AddRange(CheckRoom(bedSquareMetres, yardSquareMetres, units));
        return problems;
    }

    private string? CheckCover(Units units, double? known)
    {
        if (Unclear.Length > 0)
        {
            return $"“{Unclear}” can be read in two ways. Edit the line: a cover such as 2.6 or 2.6 {units.AreaUnit}, a count such as 6x.";
        }

        if (Finding != Finding.Growing)
        {
            return CoverSquareMetres > 0 || CoverPercent > 0 || Count > 0
                ? "A plant that is gone, dead or not found covers nothing. Take out either the figure or the word." : null;
        }

        if (CoverSquareMetres is { } given && !double.IsFinite(given))
        {
            return $"This cover is not a figure. Give the ground it covers in {units.AreaUnit}, such as 1.5.";
        }

        if (CoverSquareMetres < 0 || Count < 0 || CoverPercent < 0)
        {
            return "Cover cannot be less than nothing. Give 0 to say that the planting has ended.";
        }

        if (CoverPercent is not null && CoverSquareMetres is null)
        {
            return $"Nobody has measured this bed, so a share of it is no cover. Give {units.AreaUnit} instead.";
        }

        if (Count == 0 && CoverSquareMetres > 0)
        {
            return $"No plant is counted, yet {units.Area(CoverSquareMetres.Value):0.##} {units.AreaUnit} are covered. Leave the count "
                + $"blank where nobody counted, or give 0 for both if the planting has ended.";
        }

        if (Cover is not null || Taxon is null || (KeepsCover && known > 0))
        {
            return null;
        }

        return Count is null
            ? $"Say how much ground it covers in {units.AreaUnit}, such as 1.5, or how many plants, such as 12x."
            : $"The catalogue has no spacing for {Taxon.DisplayName}, so a count does not tell its cover. Give {units.AreaUnit} instead.";
    }

    private IEnumerable<Problem> CheckRoom(double? bed, double yard, Units units)
    {
        var room = bed ?? yard;
        if (Cover is { } cover && double.IsFinite(cover) && cover > room)
        {
            var place = bed is null ? "yard" : "bed";
            var slip = Slip(cover, room);
            yield return new(
                "cover", $"{units.Area(cover):0.##} {units.AreaUnit} is more than the {place}, which is {units.Area(room):0.##} "
                    + $"{units.AreaUnit}.{(slip is { } s ? $" Did you mean {units.Area(s):0.##}?" : "")}");
        }

        if (GrowthStage is < 0 or > 9)
        {
            yield return new("stage", "A growth stage is 0 to 9: 5 in bud, 6 in flower, 7 in fruit, 8 ripe seed, 9 dormant.");
        }
    }

    /// <summary>A slipped decimal point, where a tenth or hundredth would fit.</summary>
    public static double? Slip(double cover, double room) => cover / 10 <= room ? cover / 10 : cover / 100 <= room ? cover / 100 : null;
}
