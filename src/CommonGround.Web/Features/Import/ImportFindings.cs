using CommonGround.Interchange;
using CommonGround.Interchange.Names;

namespace CommonGround.Web.Features.Import;

/// <summary>Collects what an import finds and does.</summary>
internal sealed class ImportFindings(DateOnly today, IEnumerable<ImportError> errors, IEnumerable<ImportError> notices)
{
    private readonly Dictionary<string, (int Added, int Changed, int Unchanged)> counts = new(StringComparer.Ordinal);

    public List<ImportError> Errors { get; } = [.. errors];

    private readonly Dictionary<string, UnknownName> unknown = new(StringComparer.Ordinal);

    /// <summary>Names that get suggestions; a file with more unknown ones is no list of plants, and comparing takes time.</summary>
    private const int MostCompared = 500;

    public List<ImportError> Notices { get; } = [.. notices];

    public DateOnly Today => today;

    public void Refuse(string file, int line, string column, string value, string what, string correct) =>
        Errors.Add(new(file, line, column, value, what, correct));

    public void Count(string kind, bool added, bool changed)
    {
        var (a, c, u) = counts.GetValueOrDefault(kind);
        counts[kind] = added ? (a + 1, c, u) : changed ? (a, c + 1, u) : (a, c, u + 1);
    }

    /// <summary>Counts a name the catalogue does not know; the plants most like it are sought once.</summary>
    public IReadOnlyList<NameProposal> Unknown(string name, string where, Func<IReadOnlyList<NameProposal>> nearest,
        Func<IReadOnlyList<string>> genera)
    {
        var known = unknown.TryGetValue(name, out var before);
        var now = known ? before! with { Rows = before.Rows + 1 } : unknown.Count < MostCompared
            ? new UnknownName(name, 1, nearest()) { Genera = genera(), First = where } : new UnknownName(name, 1, []) { First = where };
        unknown[name] = now;
        return now.Proposals;
    }

    public bool InFuture(string file, int line, string column, DateOnly day)
    {
        if (day <= today)
        {
            return false;
        }

        Refuse(file, line, column, day.ToString("yyyy-MM-dd"), $"This day is in the future; today is {today:yyyy-MM-dd}.",
            "Give the day it was seen.");
        return true;
    }

    /// <summary>Refuses a text the record has no room for, before a database does so without saying where.</summary>
    public bool TooLong(string file, int line, string column, string value, int most)
    {
        if (value.Length <= most)
        {
            return false;
        }

        Refuse(file, line, column, value[..Math.Min(20, most)] + "…", $"The text has {value.Length} characters.", $"Shorten it to {most}.");
        return true;
    }

    public ImportOutcome Outcome() => new(
        [.. Errors.OrderBy(e => e.File, StringComparer.Ordinal).ThenBy(e => e.Line)], Notices,
        [.. counts.Select(c => new ImportCount(c.Key, c.Value.Added, c.Value.Changed, c.Value.Unchanged))])
    {
        UnknownNames = [.. unknown.Values.OrderByDescending(u => u.Rows).ThenBy(u => u.Name, StringComparer.Ordinal)],
    };
}
