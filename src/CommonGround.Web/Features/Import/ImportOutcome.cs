using CommonGround.Interchange;
using CommonGround.Interchange.Names;
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
/// <param name="Proposals">The catalogue's plants with a name like it, best first.</param>
public sealed record UnknownName(string Name, int Rows, IReadOnlyList<NameProposal> Proposals)
{
    /// <summary>Far enough above the next one to be put forward as what is meant.</summary>
    private const double Sure = 0.8, Ahead = 0.08;

    /// <summary>Genera of which only the species is open.</summary>
    public IReadOnlyList<string> Genera { get; init; } = [];

    /// <summary>File and line where it stands first.</summary>
    public string First { get; init; } = "";

    /// <summary>The scientific names of the proposals.</summary>
    public IReadOnlyList<string> Nearest => [.. Proposals.Select(p => p.Taxon.ScientificName)];

    /// <summary>The plant that is most likely meant, where one proposal is much likelier than all others; whoever imports sees it and can
    /// choose otherwise.</summary>
    public string? Likeliest => Proposals.Count > 0 && Proposals[0].Likeness >= Sure
        && (Proposals.Count == 1 || Proposals[0].Likeness - Proposals[1].Likeness >= Ahead) ? Proposals[0].Taxon.ScientificName : null;
}

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
