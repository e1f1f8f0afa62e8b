using System.CommandLine;
using System.Text;
using CommonGround.Web.Features.Export;

namespace CommonGround.Web.Commands;

/// <summary><c>export --format csv|xlsx|json|geojson|dwca --out FILE [--exact] [--licence KEY] [--contact ADDRESS]</c></summary>
internal static class ExportCommand
{
    public static Command Create()
    {
        var format = new Option<string>("--format")
        {
            Description = "csv, xlsx, json, geojson or dwca (Darwin Core Archive)",
            Required = true
        };
        format.AcceptOnlyFromAmong("csv", "xlsx", "json", "geojson", "dwca");
        var output = new Option<FileInfo>("--out")
        {
            Description =
            "File to write; with csv a name ending in .zip takes all kinds, another the sightings",
            Required = true
        };
        var exact = new Option<bool>("--exact")
        {
            Description =
            "Exact positions of yards; for the group's own keeping, not for passing on"
        };
        var licence = new Option<string>("--licence")
        {
            Description = "With dwca, the licence the group gives: cc0, cc-by or cc-by-nc",
            DefaultValueFactory = _ => "cc0"
        };
        licence.AcceptOnlyFromAmong([.. Licence.All.Select(l => l.Key)]);
        var contact = new Option<string>("--contact") { Description = "With dwca, the e-mail address to ask about the data" };
        var command = new Command("export", "Export the record as files") { format, output, exact, licence, contact };
        command.SetAction(async (parsed, cancel) =>
        {
            await using var services = await CommandLine.OpenAsync(parsed, cancel);
            var export = services.GetRequiredService<ExportFiles>();
            var path = parsed.GetValue(output)!.FullName;
            switch (parsed.GetValue(format))
            {
                case "csv" when path.EndsWith(".zip", StringComparison.OrdinalIgnoreCase):
                    await using (var file = File.Create(path))
                    {
                        await export.WriteCsvZipAsync(file, parsed.GetValue(exact), cancel);
                    }

                    break;
                case "csv":
                    await WriteAsync(path, await export.SightingsCsvAsync(cancel), cancel);
                    break;
                case "xlsx":
                    await using (var file = File.Create(path))
                    {
                        WorkbookExport.Write(file, await export.RowsAsync(parsed.GetValue(exact), cancel));
                    }

                    break;
                case "dwca":
                    await using (var file = File.Create(path))
                    {
                        await export.WriteArchiveAsync(file, Licence.Keyed(parsed.GetValue(licence))!, "", parsed.GetValue(contact) ?? "",
                            parsed.GetValue(exact), cancel);
                    }

                    break;
                case "json":
                    await WriteAsync(path, await export.JsonAsync(parsed.GetValue(exact), cancel), cancel);
                    break;
                default:
                    await WriteAsync(path, await export.GeoJsonAsync(parsed.GetValue(exact), cancel), cancel);
                    break;
            }

            return 0;
        });
        return command;
    }

    private static Task WriteAsync(string path, string text, CancellationToken cancel) =>
        File.WriteAllTextAsync(path, text, new UTF8Encoding(false), cancel);
}
