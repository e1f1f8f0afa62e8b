using System.Text;

namespace CommonGround.Interchange.Tests;

/// <summary>Small files for tests.</summary>
internal static class TestFiles
{
    public const string PlacesHeader = "street,block,yard,latitude,longitude,yard_m2,lawn_m2,light,moisture,soil_group,household,shared";
    public const string BedsHeader = "yard,bed,area_m2,established_on,light,moisture";
    public const string SightingsHeader =
        "yard,bed,scientific_name,observed_on,cover_m2,count,origin,certainty,growth_stage,observer,remarks";
    public const string InfestationsHeader = "yard,block,scientific_name,observed_on,area_m2,cover_percent,growth_stage,remarks";
    public const string GoodPlace = "Kiln Street,Race to Lathe,KI-01,41.9,-88.3,600,400,full_sun,medium,B,Household KI-01,yes";
    public const string GoodSighting = "KI-01,front,Monarda fistulosa,2026-07-14,1.5,,planted,certain,6,walker 1,";
    public const string GoodInfestation = "KI-01,,Alliaria petiolata,2026-05-02,4,30,6,";

    /// <summary>Root of the repository, found upwards from the tests.</summary>
    public static string Root { get; } = FindRoot();

    public static ImportFile Read(string text, string name = "file.csv") => ImportFile.Read(name, Encoding.UTF8.GetBytes(text));

    public static ImportFile Rows(string header, params string[] rows) => Read(header + "\n" + string.Join('\n', rows) + "\n");

    /// <summary>Reads one row in which a cell of a good row is replaced.</summary>
    public static ImportFile With(string header, string goodRow, string column, string cell)
    {
        var cells = goodRow.Split(',');
        cells[Array.IndexOf(header.Split(','), column)] = cell;
        return Rows(header, string.Join(',', cells));
    }

    /// <summary>The only error of a file.</summary>
    public static ImportError OnlyError(this ImportFile file) => file.Errors.ShouldHaveSingleItem();

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CommonGround.sln"))) folder = folder.Parent;
        return folder?.FullName ?? throw new DirectoryNotFoundException("The tests run outside the repository.");
    }
}
