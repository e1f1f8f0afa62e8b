using System.Globalization;
using System.IO.Compression;
using System.Net;
using System.Text;
using CommonGround.Planning.Conversion;
using CommonGround.Reports.ConversionReports;
using CommonGround.Reports.Layout;
using CommonGround.Storage.Members;
using CommonGround.Web.Features.Conversion;
using CommonGround.Web.Layout;
using Microsoft.Extensions.DependencyInjection;
using MiniExcelLibs;

namespace CommonGround.Web.Tests.Features.Conversion;

/// <summary>Plans of the demo neighbourhood, made, kept, printed and shopped for by the running site.</summary>
[Collection(SiteTests.Name)]
public class PlanFilesTests(DemoSite demo)
{
    private static readonly CurrentUser Organiser = new(Role.Organiser, null, "an organiser", false);

    private PlanQueries Plans => demo.Services.GetRequiredService<PlanQueries>();

    private SavedPlans Saved => demo.Services.GetRequiredService<SavedPlans>();

    [Fact]
    public async Task A_yards_own_record_gives_a_plan_that_obeys_it()
    {
        var (ground, plan) = await MakeAsync("KI-05");
        // From 100 to 300 m² a sound mix has 18 to 26 taxa (docs/measures.md#mix).
        plan.Request.SquareMetres.ShouldBeInRange(100, 299);
        plan.Mix.Taxa.Count.ShouldBeInRange(18, 26);
        plan.YardVisitors.ShouldNotBeNull().After.Bees.ShouldBe(plan.YardVisitors.Before.Bees + plan.YardVisitors.NewBees.Count);
        plan.Mix.Taxa.Sum(t => t.Share).ShouldBe(1, 1e-9);
        plan.Mix.Taxa.ShouldAllBe(t => t.Taxon.Light.Contains(plan.Request.Light) && t.Taxon.Moisture.Contains(plan.Request.Moisture));
        plan.Mix.Cost.ShouldBe(plan.Mix.Taxa.Sum(t => t.Cost), 1e-6);
        plan.Mix.Quality.ProvenBest.ShouldBeTrue();
        plan.Yard.CoveredAfter.ShouldBeGreaterThanOrEqualTo(plan.Yard.CoveredBefore);
        for (var t = 0; t < 24; t++)
        {
            // By hand: what flowers before, and each planned native in flower that the yard does not have.
            var more = plan.Mix.Taxa.Count(p => p.Taxon.Bloom is { } w && w.Contains(t) && !p.Traits.IsGrass
                && !ground.InYard.Contains(p.Taxon.ScientificName));
            plan.Yard.After[t].ShouldBe(plan.Yard.Before[t] + more);
        }

        plan.Water.ShouldNotBeNull().LawnLitres.Mid.ShouldBeGreaterThan(plan.Water.PlantingLitres.Mid);
        plan.Money.PricesInvented.ShouldBeTrue();
        plan.Calendar.Select(c => c.Year).Distinct().ShouldBe([0, 1, 2, 3, 4]);
    }

    [Fact]
    public async Task A_report_carries_what_the_group_wrote_who_comes_and_what_was_left_out()
    {
        var (ground, plan) = await MakeAsync("KI-05");
        var local = new LocalNotes { Ordinance = "Beds may stand two feet high.", WhereToGetPlants = "Sale at the mill" };
        var report = demo.Services.GetRequiredService<ConversionReportQueries>().OfDraft(ground with
        {
            Local = local,
            Picture = new YardPicture("2026/gone.jpg", new(2026, 5, 1), ""),
        }, plan, [], Organiser);
        report.Local.ShouldBe(local);
        report.Photo.ShouldBeNull("its file is gone");
        report.Scenes.Count.ShouldBe(4);
        report.WalkHeightMetres.ShouldNotBeNull().ShouldBeInRange(0.1, 2.5);
        var names = plan.Mix.Taxa.Select(t => t.Taxon.DisplayName).ToHashSet(StringComparer.Ordinal);
        report.Visitors.Select(v => v.Name).ShouldContain("bumblebees");
        report.Visitors.ShouldAllBe(v => v.Kinds > 0 && v.Plants.All(names.Contains));
        report.Visitors.Sum(v => v.Kinds).ShouldBe(plan.Mix.Visitors.Visitors);
        // The proof speaks of what was offered; the rest is named with its reason.
        plan.Mix.LeftOut.ShouldNotBeEmpty();
        plan.Mix.LeftOut.ShouldAllBe(l => !names.Contains(l.Taxon.DisplayName) && l.Reasons.Count > 0
            && l.Taxon.Light.Contains(plan.Request.Light));
        // No step and no remedy names a native plant that is not in the mix.
        var others = ground.Surroundings.Catalogue.Where(t => t.Nativity == Ecology.Taxa.Nativity.Native && t.DisplayName.Contains(' ')
            && !names.Contains(t.DisplayName)).Select(t => t.DisplayName);
        var said = string.Join('\n', plan.Calendar.SelectMany(s => new[] { s.Do, s.Expect, s.Short })
            .Concat(Setbacks.Of(plan.Mix).SelectMany(s => new[] { s.Looks, s.Remedy })));
        others.Where(o => said.Contains(o, StringComparison.OrdinalIgnoreCase)).ShouldBeEmpty();
        plan.Calendar.ShouldAllBe(s => s.Short.Length > 0 && s.Short.Length <= 60);
    }

    [Fact]
    public async Task A_kept_plan_gives_the_same_mix_again_and_its_files()
    {
        var (ground, plan) = await MakeAsync("LA-07");
        var (kept, problems) = await Saved.KeepAsync(ground.Facts.Id, plan, Organiser);
        problems.ShouldBeEmpty();
        var stored = (await Saved.GetAsync(kept!.Id, Organiser))!;
        var again = Plans.Make(ground, stored.Request, curve: false, stored.Amounts).Plan!;
        // Even with other prices the kept mix stays; only its cost follows.
        var dear = ground with
        {
            Prices = ground.Prices with
            {
                Taxa = new Dictionary<string, TaxonPrice>(StringComparer.Ordinal),
                ForbSeedPerGram = 50,
                PlugEach = 0.01
            }
        };
        var later = Plans.Make(dear, stored.Request, curve: false, stored.Amounts).Plan!;
        later.Mix.Taxa.Select(t => t.Taxon.ScientificName).ShouldBe(plan.Mix.Taxa.Select(t => t.Taxon.ScientificName), ignoreOrder: true);
        later.Mix.Cost.ShouldNotBe(plan.Mix.Cost);
        again.Mix.Taxa.Select(t => (t.Taxon.ScientificName, Math.Round(t.Share, 6)))
            .ShouldBe(plan.Mix.Taxa.Select(t => (t.Taxon.ScientificName, Math.Round(t.Share, 6))), ignoreOrder: true);

        using var browser = demo.Browser("organiser");
        var report = await browser.GetAsync($"/plans/{kept.Id}/report.pdf?paper=a4");
        report.Content.Headers.ContentType!.MediaType.ShouldBe("application/pdf");
        Encoding.ASCII.GetString(await report.Content.ReadAsByteArrayAsync(), 0, 5).ShouldBe("%PDF-");
        (await browser.GetAsync($"/plans/{kept.Id}/report.pdf?paper=a5")).StatusCode.ShouldBe(HttpStatusCode.BadRequest);

        var csv = (await browser.GetStringAsync($"/plans/{kept.Id}/shopping.csv")).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        csv.Length.ShouldBe(1 + again.Mix.Areas.Sum(a => a.Taxa.Count));
        csv[0].ShouldBe(string.Join(',', ShoppingFile.Columns));
        await using var xlsx = new MemoryStream(await browser.GetByteArrayAsync($"/plans/{kept.Id}/shopping.xlsx"));
        var rows = (await MiniExcel.QueryAsync(xlsx, useHeaderRow: true)).Cast<IDictionary<string, object?>>().ToList();
        rows.Count.ShouldBe(csv.Length - 1);
        rows.Sum(r => Convert.ToDouble(r["cost"], CultureInfo.InvariantCulture)).ShouldBe(again.Mix.Cost, 0.01 * rows.Count);

        // Not for strangers: neither visitors nor a member of another yard.
        foreach (var role in new[] { "visitor", "member" })
        {
            using var stranger = demo.Browser(role);
            var (_, other) = await MakeKeptAsync("CO-02");
            (await stranger.GetAsync($"/plans/{other.Id}/report.pdf")).StatusCode.ShouldBe(role == "visitor" ? HttpStatusCode.Forbidden
                : HttpStatusCode.NotFound, role);
            (await stranger.GetAsync($"/plans/{other.Id}/shopping.csv")).StatusCode.ShouldBe(role == "visitor" ? HttpStatusCode.Forbidden
                : HttpStatusCode.NotFound, role);
            (await (await stranger.GetAsync($"/plans/{other.Id}")).Content.ReadAsStringAsync()).ShouldContain(role == "visitor"
                ? "This page is for members" : "cannot be opened");
        }
    }

    [Fact]
    public async Task A_street_gives_a_report_for_each_yard_or_says_why_not_and_can_be_stopped()
    {
        var batch = demo.Services.GetRequiredService<StreetBatch>();
        var seen = new List<BatchProgress>();
        using var zip = new MemoryStream();
        var outcome = await batch.WriteAsync("Tollgate Lane", Organiser, PaperSize.Letter, "", zip, new Listener(seen),
            CancellationToken.None);
        outcome.ShouldNotBeNull();
        seen.Count.ShouldBe(seen[0].Total);
        zip.Position = 0;
        using var archive = new ZipArchive(zip, ZipArchiveMode.Read);
        archive.Entries.Count(e => e.Name.EndsWith(".pdf", StringComparison.Ordinal)).ShouldBe(outcome.Reports);
        (outcome.Reports + outcome.Refused.Count).ShouldBe(seen[0].Total);
        archive.Entries.Any(e => e.Name == "without-report.txt").ShouldBe(outcome.Refused.Count > 0);

        using var stop = new CancellationTokenSource();
        await Should.ThrowAsync<OperationCanceledException>(() => batch.WriteAsync("Tollgate Lane", Organiser, PaperSize.Letter, "",
            new MemoryStream(), new Listener([], stop.Cancel), stop.Token));
        (await batch.WriteAsync("Tollgate Lane", new CurrentUser(Role.Member, 1, "a member", false), PaperSize.Letter, "",
            new MemoryStream(), null, CancellationToken.None)).ShouldBeNull();
        (await batch.WriteAsync("Nowhere Street", Organiser, PaperSize.Letter, "", new MemoryStream(), null,
            CancellationToken.None)).ShouldBeNull();
    }

    [Fact]
    public async Task Limits_that_cannot_hold_are_named_and_nothing_typed_is_changed()
    {
        var ground = (await Plans.GroundAsync("KI-05", Organiser))!;
        var draft = PlanDraft.For(ground.Facts);
        (draft.TallestMetres, draft.Budget) = (0.05, 0.01);
        var request = draft.ToRequest(ground.Figures.Season);
        var answer = Plans.Make(ground, request, curve: false);
        answer.Plan.ShouldBeNull();
        answer.None.ShouldNotBeNull().Conflict.ShouldNotBeEmpty();
        draft.Areas[0].SquareMetres = 1e5;
        Plans.Make(ground, draft.ToRequest(ground.Figures.Season),
            curve: false).Problems.ShouldContain(p => p.Field == nameof(ConversionRequest.Areas));
        draft.Areas[0].SquareMetres = 0;
        Plans.Make(ground, draft.ToRequest(ground.Figures.Season),
            curve: false).Problems.ShouldContain(p => p.Field == nameof(ConversionRequest.Areas));
    }

    private async Task<(PlanGround Ground, ConversionPlan Plan)> MakeAsync(string yard)
    {
        var ground = (await Plans.GroundAsync(yard, Organiser))!;
        var plan = Plans.Make(ground, PlanDraft.For(ground.Facts).ToRequest(ground.Figures.Season), curve: false).Plan;
        return (ground, plan.ShouldNotBeNull());
    }

    private async Task<(ConversionPlan Plan, KeptPlan Kept)> MakeKeptAsync(string yard)
    {
        var (ground, plan) = await MakeAsync(yard);
        return (plan, (await Saved.KeepAsync(ground.Facts.Id, plan, Organiser)).Plan!);
    }

    private sealed class Listener(List<BatchProgress> seen, Action? then = null) : IProgress<BatchProgress>
    {
        public void Report(BatchProgress value)
        {
            seen.Add(value);
            then?.Invoke();
        }
    }
}
