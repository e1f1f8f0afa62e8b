namespace CommonGround.Interchange.Csv;

/// <summary>How somebody wants a file to be read.</summary>
/// <param name="Kind">What its rows are; unrecognised when nobody knows yet.</param>
/// <param name="Columns">Column of ours → number of the file's column, from 0.</param>
/// <param name="Order">How its days are written.</param>
public sealed record ReadingChoices(ImportKind Kind, IReadOnlyDictionary<string, int> Columns, DateOrder Order)
{
    /// <summary>Name as written, without cf. or aff. → name of the catalogue that is meant.</summary>
    public IReadOnlyDictionary<string, string> Names { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);
}
