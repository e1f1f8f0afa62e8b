using CommonGround.Interchange;
using CommonGround.Storage.History;

namespace CommonGround.Web.Features.Import;

/// <param name="AllowUnlisted">A name the catalogue does not know becomes a plain taxon instead of an error.</param>
/// <param name="CheckOnly">Say what would happen and store nothing.</param>
/// <param name="Today">Nothing may be dated after it.</param>
public sealed record ImportChoices(bool AllowUnlisted, bool CheckOnly, DateOnly Today)
{
    /// <summary>Who brings the files, for history; null: whoever has the machine.</summary>
    public ChangeNote? By { get; init; }

    /// <summary>Names the catalogue does not know that may become plain taxa all the same, one by one.</summary>
    public IReadOnlySet<string> Unlisted { get; init; } = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
}

/// <summary>A name the catalogue does not know.</summary>
/// <param name="Name">As written, without cf. or aff.</param>
/// <param name="Rows">How many rows have it.</param>
/// <param name="Nearest">The catalogue's most similar names, best first.</param>
public sealed record UnknownName(string Name, int Rows, IReadOnlyList<string> Nearest);

/// <summary>What one kind of row came to.</summary>
public sealed record ImportCount(string Kind, int Added, int Changed, int Unchanged);

/// <summary>Every error of every file, or what was stored. With an error nothing was.</summary>
public sealed record ImportOutcome(IReadOnlyList<ImportError> Errors, IReadOnlyList<ImportError> Notices, IReadOnlyList<ImportCount> Counts)
{
    /// <summary>Names nobody decided about yet, each once; each of their rows is among the errors too.</summary>
    public IReadOnlyList<UnknownName> UnknownNames { get; init; } = [];

    public bool Changed => Counts.Any(c => c.Added + c.Changed > 0);
}

/// <summary>How far an import has come, 0–1, and at what.</summary>
public sealed record ImportProgress(string Doing, double Share);
