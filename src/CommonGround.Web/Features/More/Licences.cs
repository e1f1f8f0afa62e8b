namespace CommonGround.Web.Features.More;

/// <summary>A package the site uses.</summary>
/// <param name="Terms">SPDX identifiers of its licence.</param>
public sealed record LicensedPackage(string Part, string Name, string Version, string Terms);

/// <summary>The list of licences that travels with the program: docs/licences.md.</summary>
public static class Licences
{
    public static string Path => System.IO.Path.Combine(AppContext.BaseDirectory, "licences.md");

    /// <param name="lines">Headings of the second level, and tables of three columns under them.</param>
    public static IReadOnlyList<LicensedPackage> Read(IEnumerable<string> lines)
    {
        ArgumentNullException.ThrowIfNull(lines);
        var (part, packages) = ("", new List<LicensedPackage>());
        foreach (var line in lines)
        {
            part = line.StartsWith("## ", StringComparison.Ordinal) ? line[3..].Trim() : part;
            if (line.StartsWith("| ", StringComparison.Ordinal) && line.Split('|', StringSplitOptions.TrimEntries) is ["", var name,
                var version, var terms, ""] && name != "package")
            {
                packages.Add(new(part, name, version, terms));
            }
        }

        return packages;
    }
}
