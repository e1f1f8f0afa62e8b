namespace CommonGround.Interchange.Catalogue;

/// <summary>The plant catalogue, plants.csv: one row a taxon, checked as a whole.</summary>
public static class CatalogueFile
{
    /// <summary>Reads the catalogue; <see cref="ImportFile.Taxa"/> may be stored only when <see cref="ImportFile.Errors"/> is
    /// empty.</summary>
    public static ImportFile Read(string fileName, byte[] content)
    {
        var file = ImportFile.Read(fileName, content);
        if (file.Kind == ImportKind.Catalogue || file.Errors.Count > 0) return file;
        return file with
        {
            Errors = [new ImportError(file.FileName, 1, "",
            "", $"This is a {file.Kind.ToString().ToLowerInvariant()} file, not the plant catalogue.",
                "Choose the file that has one row a taxon.")]
        };
    }
}
