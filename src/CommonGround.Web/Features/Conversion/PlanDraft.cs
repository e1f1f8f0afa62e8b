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

/// <summary>What somebody has said so far of the planting they want. Kept as it is typed; <see cref="ToRequest"/> makes the planner's input
/// of it.</summary>
public sealed class PlanDraft
{
    public List<AreaDraft> Areas { get; set; } = [];

    /// <summary>Null until somebody says so: light, moisture and soil are asked for, never guessed.</summary>
    public Light? Light { get; set; }
    public Moisture? Moisture { get; set; }
    public SoilGroup? SoilGroup { get; set; }
    public SoilTexture? SoilTexture { get; set; }
    public bool Kerb { get; set; }
    public bool Salt { get; set; }
    public bool Septic { get; set; }
    public bool Browsers { get; set; }
    public double? SlopePercent { get; set; } = 2;
    public PresentCover PresentCover { get; set; }
    public double? Budget { get; set; }
    public double? TallestMetres { get; set; } = 1.5;
    public Look Look { get; set; }
    public bool WatersLawn { get; set; }
    public bool KeepToxicOut { get; set; }
    public bool KeepToxicToAnimalsOut { get; set; }
    public Method Method { get; set; } = Method.Mixed;
    public StartSeason Start { get; set; }
    public double? LeastGrassPercent { get; set; }
    public double? MostGrassPercent { get; set; }
    public double? MostOfOnePercent { get; set; }
    public int? FewestTaxa { get; set; }
    public int? MostTaxa { get; set; }
    public List<string> MustHave { get; set; } = [];
    public List<string> Never { get; set; } = [];
    public Dictionary<string, PlantedAmount> LockedAmounts { get; set; } = new(StringComparer.Ordinal);

    /// <summary>What the yard's own record says, and a third of its lawn.</summary>
    public static PlanDraft For(YardFacts yard)
    {
        ArgumentNullException.ThrowIfNull(yard);
        var area = Proposed(yard.LawnSquareMetres);
        return new PlanDraft
        {
            Areas = [new AreaDraft { Name = "front", SquareMetres = area }],
            Light = yard.Light,
            Moisture = yard.Moisture,
            SoilGroup = yard.SoilGroup,
        };
    }

    /// <summary>How much ground a plan proposes at first: a third of the lawn; 20 m² where nobody has measured it.</summary>
    public static double Proposed(double? lawnSquareMetres) => lawnSquareMetres is { } lawn && lawn >= 1
        ? Math.Max(1, Math.Round(lawn / 3)) : 20;

    /// <summary>What must be said before a plan can be made; empty when nothing is missing.</summary>
    public IReadOnlyList<ConversionProblem> Missing()
    {
        var found = new List<ConversionProblem>();
        if (Light is null) found.Add(new(nameof(Light), "The record does not say how much light there is. Look in June and choose."));
        if (Moisture is null)
            found.Add(new(nameof(Moisture), "The record does not say how moist the soil is. Think of an ordinary July and choose."));
        if (SoilGroup is null)
            found.Add(new(nameof(SoilGroup), "The record does not say how fast rain sinks in. Fill a hole with water, watch, and choose."));
        return found;
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
            SoilTexture = request.SoilTexture,
            Kerb = request.Kerb,
            Salt = request.Salt,
            Septic = request.Septic,
            Browsers = request.Browsers,
            SlopePercent = request.SlopePercent,
            PresentCover = request.PresentCover,
            Budget = request.Budget,
            TallestMetres = request.TallestMetres,
            Look = request.Look,
            WatersLawn = request.WatersLawn,
            KeepToxicOut = request.KeepToxicOut,
            KeepToxicToAnimalsOut = request.KeepToxicToAnimalsOut,
            Method = request.Method,
            Start = request.Start,
            LeastGrassPercent = Percent(request.LeastGrassShare),
            MostGrassPercent = Percent(request.MostGrassShare),
            MostOfOnePercent = Percent(request.MostShareOfOne),
            FewestTaxa = request.FewestTaxa,
            MostTaxa = request.MostTaxa,
            MustHave = [.. request.MustHave],
            Never = [.. request.Never],
            LockedAmounts = new Dictionary<string, PlantedAmount>(request.LockedAmounts, StringComparer.Ordinal),
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

    /// <summary>The planner's input, once nothing is <see cref="Missing"/>. A size left blank becomes one that the planner's own check
    /// refuses in words; other blanks are no limit.</summary>
    public ConversionRequest ToRequest(Season season) => new()
    {
        Areas = [.. Areas.Select(a => new ConversionArea(a.Name.Trim(), a.SquareMetres ?? 0, a.Outline))],
        Light = Light ?? throw new InvalidOperationException("The light is not known."),
        Moisture = Moisture ?? throw new InvalidOperationException("The moisture is not known."),
        SoilGroup = SoilGroup ?? throw new InvalidOperationException("The soil group is not known."),
        SoilTexture = SoilTexture,
        Kerb = Kerb,
        Salt = Salt,
        Septic = Septic,
        Browsers = Browsers,
        SlopePercent = SlopePercent ?? 0,
        PresentCover = PresentCover,
        Budget = Budget,
        TallestMetres = TallestMetres,
        Look = Look,
        WatersLawn = WatersLawn,
        KeepToxicOut = KeepToxicOut,
        KeepToxicToAnimalsOut = KeepToxicToAnimalsOut,
        Method = Method,
        Start = Start,
        LeastGrassShare = LeastGrassPercent / 100,
        MostGrassShare = MostGrassPercent / 100,
        MostShareOfOne = MostOfOnePercent / 100,
        FewestTaxa = FewestTaxa,
        MostTaxa = MostTaxa,
        MustHave = [.. MustHave],
        Never = [.. Never],
        LockedAmounts = new Dictionary<string, PlantedAmount>(LockedAmounts, StringComparer.Ordinal),
        Season = season,
    };

    private static double? Percent(double? share) => share is { } known ? Math.Round(known * 100, 3) : null;
}
