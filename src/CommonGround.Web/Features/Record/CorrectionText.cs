using System.Globalization;
using CommonGround.Ecology.Taxa;
using CommonGround.Interchange.Names;
using CommonGround.Web.Shared;

namespace CommonGround.Web.Features.Record;

/// <summary>The correction form as typed, figures as text, so that a slip is said and not lost.</summary>
public sealed record CorrectionTyped(string Name, long Bed, string Patch, DateOnly? Day, Finding Finding, string Cover, string Count,
    string Stage, Origin Origin, Certainty Certainty, string Qualifier, string CheckedBy, string Remarks, bool OnlyThis);

/// <summary>From a correction to its form and back.</summary>
public static class CorrectionText
{
    public static CorrectionTyped Of(Correction c, Units units)
    {
        ArgumentNullException.ThrowIfNull(c);
        ArgumentNullException.ThrowIfNull(units);
        return new(c.Name, c.BedId, c.Patch, c.ObservedOn, c.Finding, c.CoverSquareMetres is { } m
            ? Figure(units.Area(m)) : "",
            c.Count?.ToString(CultureInfo.InvariantCulture) ?? "", c.GrowthStage?.ToString(CultureInfo.InvariantCulture) ?? "", c.Origin,
                c.Certainty, c.Qualifier, c.VerifiedBy, c.Remarks, false);
    }

    // As fine as anybody measures; what nobody touched stays to the last digit all the same.
    private static string Figure(double area) =>
        area.ToString(area >= 100 ? "0" : area >= 1 ? "0.##" : "0.####", CultureInfo.InvariantCulture);

    public static (Correction Correction, IReadOnlyList<Problem> Problems) Read(CorrectionTyped kept, Correction was, NameIndex names,
        Units units)
    {
        ArgumentNullException.ThrowIfNull(kept);
        ArgumentNullException.ThrowIfNull(units);
        var problems = new List<Problem>();
        double? cover = null;
        if (kept.Cover == Of(was, units).Cover)
        {
            // What nobody touched stays to the last digit.
            cover = was.CoverSquareMetres;
        }
        else if (kept.Cover.Trim().Length > 0)
        {
            if (double.TryParse(kept.Cover.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture,
                out var typed))
            {
                cover = units.Customary ? typed / Words.SquareFeetPerSquareMetre : typed;
            }
            else
            {
                problems.Add(new("cover", $"“{kept.Cover}” is not a cover. Give {units.AreaUnit} such as 1.5."));
            }
        }

        int? count = null;
        if (kept.Count.Trim().Length > 0)
        {
            if (int.TryParse(kept.Count.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var typed))
            {
                count = typed;
            }
            else
            {
                problems.Add(new("count", $"“{kept.Count}” is not a number of plants. Give a whole number such as 12."));
            }
        }

        var name = kept.Name.Trim();
        var unlisted = name != was.Name && names.Sole(name) is null
            && (RecordedName.StopsAboveSpecies(name) || names.Genus(name) is not null) ? RecordedName.Of(name, names) : null;
        if (unlisted is null && name.Length > 0 && name != was.Name && names.Sole(name) is null)
        {
            var near = names.Propose(name, 3).Select(n => n.Taxon.DisplayName).ToList();
            problems.Add(new("name", $"“{name}” is not the name of one plant. "
                + (near.Count > 0 ? $"Near to it: {string.Join("; ", near)}." : "Choose one of the names offered.")));
        }

        return (new Correction
        {
            Name = unlisted?.ScientificName ?? (name == was.Name ? name : names.Sole(name)?.ScientificName ?? name),
            Unlisted = unlisted,
            BedId = kept.Bed,
            Patch = kept.Patch.Trim(),
            ObservedOn = kept.Day,
            CoverSquareMetres = cover,
            Count = count,
            GrowthStage = int.TryParse(kept.Stage, NumberStyles.None, CultureInfo.InvariantCulture, out var stage) ? stage : null,
            Origin = kept.Origin,
            Certainty = kept.Certainty,
            Qualifier = kept.Qualifier,
            Finding = kept.Finding,
            VerifiedBy = kept.CheckedBy,
            Remarks = kept.Remarks,
            OnlyThis = kept.OnlyThis,
        }, problems);
    }
}
