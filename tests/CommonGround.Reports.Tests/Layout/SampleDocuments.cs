using CommonGround.Drawings.Plants;
using CommonGround.Drawings.Scenes;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Reports.Charts;
using CommonGround.Reports.InvitationSlips;
using CommonGround.Reports.Labels;
using CommonGround.Reports.Layout;
using CommonGround.Reports.StreetInvitations;
using CommonGround.Reports.Tests.ConversionReports;
using CommonGround.Reports.Tests.YardReports;
using CommonGround.Reports.Tours;
using CommonGround.Reports.WalkSheets;
using LikenessPicture = CommonGround.Drawings.Pens.Picture;

namespace CommonGround.Reports.Tests.Layout;

/// <summary>One of each kind of paper the program prints.</summary>
internal static class SampleDocuments
{
    public static IReadOnlyList<string> Kinds { get; } = ["yard report", "conversion report", "walk sheet", "invitation slips", "labels",
        "stakes", "edge sign", "tour leaflet", "steward's sheet", "street invitation"];

    private static readonly int[] s_inFlower = [0, 0, 0, 0, 0, 0, 1, 2, 3, 3, 4, 6, 8, 9, 9, 7, 6, 4, 3, 1, 0, 0, 0, 0];

    public static byte[] Of(string kind, PaperSize paper = PaperSize.Letter)
    {
        using var to = new MemoryStream();
        switch (kind)
        {
            case "yard report":
                return ReadBack.Of(SampleYards.Settled(), paper).Bytes;
            case "conversion report":
                return ConversionReportPagesTests.Write(SamplePlans.Ordinary());
            case "walk sheet":
                WalkSheetDocument.Write(Walk(), paper, to);
                break;
            case "invitation slips":
                InvitationSlipsDocument.Write("Quarry Bend", "https://example.org/join", new(2026, 9, 2),
                    [.. Enumerable.Range(1, 8).Select(i => new InvitationSlip($"household {i}", $"ABCD-EFGH-JKLM-NPQ{i}",
                        $"https://example.org/join?code=ABCD-EFGH-JKLM-NPQ{i}"))], paper, to);
                break;
            case "labels" or "stakes":
                LabelDocument.Write([.. Enumerable.Range(0, 6).Select(i => new PlantLabel("wild bergamot", "Monarda fistulosa",
                    Drawn("wild bergamot"), new BloomWindow(12, 15), "flowers Jul 1–Aug 31", "purple",
                    $"https://quarry-bend.example.org/plants/monarda-fistulosa?label={i}"))],
                    LabelStock.All.First(s => s.IsStake == (kind == "stakes")), "Quarry Bend", to);
                break;
            case "edge sign":
                new EdgeSign("Quarry Bend", "", [Drawn("wild bergamot")], ["wild bergamot"],
                    "https://example.org/streets").Write(paper, to);
                break;
            case "tour leaflet":
                TourLeaflet.Write(Tour(3), paper, to);
                break;
            case "steward's sheet":
                StewardSheet.Write(Tour(3), paper, to);
                break;
            case "street invitation":
                Invitation().Write(paper, to);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such paper.");
        }

        return to.ToArray();
    }

    public static TourSheet Tour(int stops) => new()
    {
        Neighbourhood = "Quarry Bend",
        Demo = true,
        Place = "Lathe Street",
        On = new(2026, 8, 22),
        Meet = "At ten at the corner of Mill Lane.",
        Address = "https://quarry-bend.example.org/tours/ABCD-EFGH-JKLM",
        Stops = [.. Enumerable.Range(1, stops).Select(i => new TourStop(i, "Mill to Kiln",
            i == 1 ? "the corner house, 12 Lathe Street" : "",
            "It began with one bergamot.", [.. Enumerable.Range(0, 5).Select(p => Plant(p))],
            ["white baneberry (poisonous if eaten)"])
        {
            Steward = new($"LA-0{i}", "The Wrens", new(2026, 8, 14),
                ["Smooth blue aster (Symphyotrichum laeve, tentative, seen August 14, 2026): Alternate, egg-shaped."],
                ["Garlic mustard, 2 m², seen May 3, 2026."]),
        })],
    };

    public static StreetInvitation Invitation() => new()
    {
        Neighbourhood = "Quarry Bend",
        Demo = true,
        Street = "Kiln Street",
        AsOf = new(2026, 8, 19),
        Headline = "Three of four blocks of Kiln Street run out of flowers late in the year",
        Lead = "From August 16 we count a block as flowering while three native kinds are in flower near each other.",
        Year = StreetsYearChart.Draw([("Kiln Street", s_inFlower)], Season.Default, null, 820),
        Map = new Chart(328, 340, "Map of the blocks",
        [
            new PathMark("map-ring", [(20, 40), (240, 40)], Closed: false),
            new PathMark("map-casing", [(20, 40), (240, 40)], Closed: false),
            .. Enumerable.Range(0, 6).SelectMany(i => new Mark[] { new PathMark($"map-cv{i}", [(20, 40 + (i * 40)), (240, 40 + (i * 40))],
                Closed: false), new CircleMark($"map-disc{i}", 130, 40 + (i * 40), 12), new TextMark(i > 3 ? "badge-light" : "badge", 130,
                44 + (i * 40), $"{i}", Anchor.Middle) }),
            new PathMark("map-none", [(20, 300), (240, 300)], Closed: false), new CircleMark("map-cross", 20, 40, 6),
            new TextMark("street", 250, 44, "Kiln Street"),
        ]),
        Plants = [.. Enumerable.Range(0, 4).Select(_ => ("showy goldenrod", "Aug 16–Oct 31", Drawn("showy goldenrod")))],
        Address = "https://quarry-bend.example.org/streets/street?street=Kiln%20Street",
    };

    private static TourPlant Plant(int i) => new("wild bergamot", "Monarda fistulosa", Drawn("wild bergamot"),
        i % 2 == 0 ? "in flower" : "worth a touch", "Several flowers a stem, purple, each about 4 cm across.",
        "bumblebees, hawk moths and hummingbirds", i % 2 == 0 ? "" : "Feel the square stem.",
        i == 4 ? "The sap burns skin in sunlight." : "");

    private static WalkSheet Walk() => new()
    {
        Neighbourhood = "Quarry Bend",
        YardCode = "LA-07",
        AsOf = new(2026, 8, 19),
        EntryAddress = "https://quarry-bend.example.org/yards/LA-07/record/sheet",
        Beds = [new WalkBed("front", [.. Enumerable.Range(0, 30).Select(i => new WalkRow(new CatalogueTaxon
        {
            ScientificName = "Monarda fistulosa",
            CommonNames = ["wild bergamot"],
        }, "", "", 1, "flowering", new(2025, 8, 1), i % 9 == 0 ? Certainty.Tentative : Certainty.Certain, ["Square stem."]))])],
    };

    private static LikenessPicture Drawn(string name) =>
        Portrait.Small(Likeness.Plain(new CatalogueTaxon { ScientificName = "Monarda fistulosa", CommonNames = [name] }), 130);
}
