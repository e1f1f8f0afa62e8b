using System.Text.Json;
using CommonGround.Ecology.Phenology;
using CommonGround.Ecology.Taxa;
using CommonGround.Planning.Conversion;
using CommonGround.Web.Features.Yards;

namespace CommonGround.Web.Features.Conversion;

/// <summary>An area as it is typed or drawn.</summary>
public sealed class AreaDraft
{
    public string Name { get; set; } = "";
    public double? SquareMetres { get; set; }
    public IReadOnlyList<PlanPoint> Outline { get; set; } = [];
}

/// <summary>What somebody has said so far of the planting they want. Kept as it is typed; <see cref="ToRequest"/> makes the planner's input of it.</summary>
public sealed class PlanDraft
{
    public List<AreaDraft> Areas { get; set; } = [];
    public Light Light { get; set; }
    public Moisture Moisture { get; set; } = Moisture.Medium;
    public SoilGroup SoilGroup { get; set; } = SoilGroup.C;
    public double? SlopePercent { get; set; } = 2;
    public PresentCover PresentCover { get; set; }
    public double? Budget { get; set; }
    public double? TallestMetres { get; set; } = 1.5;
    public Look Look { get; set; }
    public bool WatersLawn { get; set; }
    public bool KeepToxicOut { get; set; }
    public Method Method { get; set; } = Method.Mixed;
    public StartSeason Start { get; set; }
    public double? LeastGrassPercent { get; set; } = 30;
    public double? MostGrassPercent { get; set; } = 50;
    public double? MostOfOnePercent { get; set; } = 12;
    public int? FewestTaxa { get; set; } = 12;
    public int? MostTaxa { get; set; } = 24;
    public List<string> MustHave { get; set; } = [];
    public List<string> Never { get; set; } = [];
    public Dictionary<string, double> LockedShares { get; set; } = new(StringComparer.Ordinal);

    /// <summary>What the yard's own record says, and a third of its lawn.</summary>
    public static PlanDraft For(YardFacts yard)
    {
        ArgumentNullException.ThrowIfNull(yard);
        var area = yard.LawnSquareMetres is { } lawn && lawn >= 1 ? Math.Max(1, Math.Round(lawn / 3)) : 20;
        return new PlanDraft
        {
            Areas = [new AreaDraft { Name = "front", SquareMetres = area }],
            Light = yard.Light ?? Light.FullSun,
            Moisture = yard.Moisture ?? Moisture.Medium,
            SoilGroup = yard.SoilGroup ?? SoilGroup.C,
        };
    }

    public static PlanDraft From(ConversionRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return new PlanDraft
        {
            Areas = [.. request.Areas.Select(a => new AreaDraft { Name = a.Name, SquareMetres = a.SquareMetres, Outline = a.Outline })],
            Light = request.Light,
            Moisture = request.Moisture,
            SoilGroup = request.SoilGroup,
            SlopePercent = request.SlopePercent,
            PresentCover = request.PresentCover,
            Budget = request.Budget,
            TallestMetres = request.TallestMetres,
            Look = request.Look,
            WatersLawn = request.WatersLawn,
            KeepToxicOut = request.KeepToxicOut,
            Method = request.Method,
            Start = request.Start,
            LeastGrassPercent = Percent(request.LeastGrassShare),
            MostGrassPercent = Percent(request.MostGrassShare),
            MostOfOnePercent = Percent(request.MostShareOfOne),
            FewestTaxa = request.FewestTaxa,
            MostTaxa = request.MostTaxa,
            MustHave = [.. request.MustHave],
            Never = [.. request.Never],
            LockedShares = new Dictionary<string, double>(request.LockedShares, StringComparer.Ordinal),
        };
    }

    /// <summary>A draft kept in the browser; null when it is of an older version, or somebody changed it by hand.</summary>
    public static PlanDraft? Read(string text)
    {
        try
        {
            return JsonSerializer.Deserialize<PlanDraft>(text);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>The planner's input. A field left blank becomes a value that the planner's own check refuses in words, or no limit where that makes sense.</summary>
    public ConversionRequest ToRequest(Season season) => new()
    {
        Areas = [.. Areas.Select(a => new ConversionArea(a.Name.Trim(), a.SquareMetres ?? 0, a.Outline))],
        Light = Light,
        Moisture = Moisture,
        SoilGroup = SoilGroup,
        SlopePercent = SlopePercent ?? 0,
        PresentCover = PresentCover,
        Budget = Budget,
        TallestMetres = TallestMetres,
        Look = Look,
        WatersLawn = WatersLawn,
        KeepToxicOut = KeepToxicOut,
        Method = Method,
        Start = Start,
        LeastGrassShare = (LeastGrassPercent ?? 0) / 100,
        MostGrassShare = (MostGrassPercent ?? 100) / 100,
        MostShareOfOne = (MostOfOnePercent ?? 100) / 100,
        FewestTaxa = FewestTaxa ?? 1,
        MostTaxa = MostTaxa ?? 1000,
        MustHave = [.. MustHave],
        Never = [.. Never],
        LockedShares = new Dictionary<string, double>(LockedShares, StringComparer.Ordinal),
        Season = season,
    };

    private static double Percent(double share) => Math.Round(share * 100, 3);
}
