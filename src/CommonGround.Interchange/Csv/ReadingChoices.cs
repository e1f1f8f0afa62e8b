namespace CommonGround.Interchange.Csv;

/// <summary>How somebody wants a file to be read.</summary>
/// <param name="Kind">What its rows are; unrecognised when nobody knows yet.</param>
/// <param name="Columns">Column of ours → number of the file's column, from 0.</param>
/// <param name="Order">How its days are written.</param>
public sealed record ReadingChoices(ImportKind Kind, IReadOnlyDictionary<string, int> Columns, DateOrder Order)
{
    private static readonly Dictionary<string, string> Nothing = new(StringComparer.Ordinal);

    /// <summary>Name as written, without cf. or aff. → name of the catalogue that is meant.</summary>
    public IReadOnlyDictionary<string, string> Names { get; init; } = Nothing;

    /// <summary>Column of ours → key of the <see cref="MeasureUnit"/> its figures are written in; ours where nothing is said.</summary>
    public IReadOnlyDictionary<string, string> Units { get; init; } = Nothing;

    /// <summary>Column of ours that the file has not → what every row has there, such as the one bed the file is about.</summary>
    public IReadOnlyDictionary<string, string> Same { get; init; } = Nothing;

    /// <summary>Year of days written without one.</summary>
    public int? Year { get; init; }

    /// <summary>A blank street, block, yard, bed or day means what the row above says.</summary>
    public bool BlankAsAbove { get; init; }

    /// <summary>Yards without a code get one from their street's letters, and are known by their household's label.</summary>
    public bool MakeCodes { get; init; }
}
