using System.IO.Compression;
using System.Text;
using CommonGround.Reports.ConversionReports;
using CommonGround.Reports.Layout;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Features.Conversion;

/// <summary>How far a batch has come.</summary>
public sealed record BatchProgress(int Done, int Total, string Yard);

/// <summary>What a batch made.</summary>
/// <param name="Refused">Yard and why it has no report.</param>
public sealed record BatchOutcome(int Reports, IReadOnlyList<(string Yard, string Why)> Refused);

/// <summary>One conversion report for each yard of a street, in one zip.</summary>
public sealed class StreetBatch(NeighbourhoodDatabase database, ConversionReportQueries reports)
{
    public async Task<IReadOnlyList<string>> StreetsAsync(CancellationToken cancel = default)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Streets.OrderBy(s => s.Name).Select(s => s.Name).ToListAsync(cancel);
    }

    /// <summary>Writes the zip; null when there is no such street or the reader may not make its reports.</summary>
    /// <exception cref="OperationCanceledException">Stopped; what was written so far is no whole zip.</exception>
    public async Task<BatchOutcome?> WriteAsync(string street, CurrentUser currentUser, PaperSize paper, string address, Stream target,
        IProgress<BatchProgress>? progress, CancellationToken cancel)
    {
        if (!currentUser.MayOrganise || await YardsAsync(street, cancel) is not { Count: > 0 } yards)
        {
            return null;
        }

        var refused = new List<(string Yard, string Why)>();
        using var zip = new ZipArchive(target, ZipArchiveMode.Create, leaveOpen: true);
        var (writing, done) = (new Lock(), 0);
        await Parallel.ForEachAsync(yards, new ParallelOptions
        {
            MaxDegreeOfParallelism = Environment.ProcessorCount,
            CancellationToken = cancel
        }, async (yard, stop) =>
        {
            var (pdf, why) = await PdfAsync(yard, currentUser, paper, address, stop);
            lock (writing)
            {
                if (pdf is not null)
                {
                    using var entry = zip.CreateEntry($"{yard}.pdf", CompressionLevel.NoCompression).Open();
                    entry.Write(pdf);
                }
                else
                {
                    refused.Add((yard, why));
                }

                progress?.Report(new BatchProgress(++done, yards.Count, yard));
            }
        });
        if (refused.Count > 0)
        {
            await using var list = await zip.CreateEntry("without-report.txt").OpenAsync(cancel);
            await list.WriteAsync(Encoding.UTF8.GetBytes(string.Join('\n',
                refused.OrderBy(r => r.Yard, StringComparer.Ordinal).Select(r => $"{r.Yard}: {r.Why}")) + "\n"), cancel);
        }

        return new BatchOutcome(yards.Count - refused.Count, refused);
    }

    private async Task<(byte[]? Pdf, string Why)> PdfAsync(string yard, CurrentUser currentUser, PaperSize paper, string address,
        CancellationToken cancel)
    {
        try
        {
            if (await reports.OfYardAsync(yard, currentUser, address, cancel) is not { } report)
            {
                return (null, "The yard is gone.");
            }

            using var pdf = new MemoryStream();
            ConversionReportDocument.Write(report, paper, pdf);
            return (pdf.ToArray(), "");
        }
        catch (PlanRefusedException e)
        {
            return (null, e.Message);
        }
    }

    private async Task<List<string>> YardsAsync(string street, CancellationToken cancel)
    {
        await using var db = await database.CreateDbContextAsync(cancel);
        return await db.Yards.Where(y => db.Blocks.Any(b => b.Id == y.BlockId
            && db.Streets.Any(s => s.Id == b.StreetId && s.Name == street)))
            .OrderBy(y => y.Code).Select(y => y.Code).ToListAsync(cancel);
    }
}
