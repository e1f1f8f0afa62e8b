using CommonGround.Ecology.Taxa;

namespace CommonGround.Interchange.Csv;

/// <summary>The words a column may hold and the value each stands for.</summary>
internal sealed class CsvWords<T>
    where T : struct, Enum
{
    private readonly Dictionary<string, T> values;
    private readonly Dictionary<T, string> words = [];

    /// <param name="pairs">Word → value, in the order they are listed to people.</param>
    public CsvWords(params (string Word, T Value)[] pairs)
    {
        values = new Dictionary<string, T>(StringComparer.OrdinalIgnoreCase);
        foreach (var (word, value) in pairs)
        {
            values.Add(word, value);
            words.TryAdd(value, word);
        }
        Listed = string.Join(", ", pairs[..^1].Select(p => p.Word)) + " or " + pairs[^1].Word;
    }

    /// <summary>All words as a sentence lists them: "dry, medium, moist or wet".</summary>
    public string Listed { get; }

    public bool TryRead(string word, out T value) => values.TryGetValue(word, out value);

    public string Write(T? value) => value is { } known && words.TryGetValue(known, out var word) ? word : "";
}

/// <summary>The word lists of the import kinds.</summary>
internal static class Words
{
    public static readonly CsvWords<Light> Light = new(("full_sun", Ecology.Taxa.Light.FullSun),
        ("part_shade", Ecology.Taxa.Light.PartShade), ("shade", Ecology.Taxa.Light.Shade));

    public static readonly CsvWords<Moisture> Moisture = new(("dry", Ecology.Taxa.Moisture.Dry), ("medium", Ecology.Taxa.Moisture.Medium),
        ("moist", Ecology.Taxa.Moisture.Moist), ("wet", Ecology.Taxa.Moisture.Wet));

    public static readonly CsvWords<SoilGroup> SoilGroup = new(("A", Ecology.Taxa.SoilGroup.A), ("B", Ecology.Taxa.SoilGroup.B),
        ("C", Ecology.Taxa.SoilGroup.C), ("D", Ecology.Taxa.SoilGroup.D));

    public static readonly CsvWords<Origin> Origin = new(("planted", Ecology.Taxa.Origin.Planted),
        ("self_sown", Ecology.Taxa.Origin.SelfSown), ("relict", Ecology.Taxa.Origin.Relict), ("unknown", Ecology.Taxa.Origin.Unknown));

    public static readonly CsvWords<Certainty> Certainty = new(("certain", Ecology.Taxa.Certainty.Certain),
        ("probable", Ecology.Taxa.Certainty.Probable), ("tentative", Ecology.Taxa.Certainty.Tentative));

    public static readonly CsvWords<Finding> Finding = new(("growing", Ecology.Taxa.Finding.Growing),
        ("ended", Ecology.Taxa.Finding.Ended), ("died", Ecology.Taxa.Finding.Died), ("not_found", Ecology.Taxa.Finding.NotFound));

    public static readonly CsvWords<Nativity> Nativity = new(("native", Ecology.Taxa.Nativity.Native),
        ("introduced", Ecology.Taxa.Nativity.Introduced));

    public static readonly CsvWords<LifeForm> LifeForm = new(("forb", Ecology.Taxa.LifeForm.Forb), ("grass", Ecology.Taxa.LifeForm.Grass),
        ("sedge", Ecology.Taxa.LifeForm.Sedge),
        ("legume", Ecology.Taxa.LifeForm.Legume), ("shrub", Ecology.Taxa.LifeForm.Shrub), ("tree", Ecology.Taxa.LifeForm.Tree),
            ("vine", Ecology.Taxa.LifeForm.Vine),
        ("fern", Ecology.Taxa.LifeForm.Fern), ("turf", Ecology.Taxa.LifeForm.Turf));

    public static readonly CsvWords<ImpactRank> ImpactRank = new(("high", Ecology.Taxa.ImpactRank.High),
        ("medium", Ecology.Taxa.ImpactRank.Medium), ("low", Ecology.Taxa.ImpactRank.Low), ("unranked", Ecology.Taxa.ImpactRank.Unranked));

    public static readonly CsvWords<WetlandIndicator> WetlandIndicator = new(("OBL", Ecology.Taxa.WetlandIndicator.Obligate),
        ("FACW", Ecology.Taxa.WetlandIndicator.FacultativeWetland),
        ("FAC", Ecology.Taxa.WetlandIndicator.Facultative), ("FACU", Ecology.Taxa.WetlandIndicator.FacultativeUpland),
            ("UPL", Ecology.Taxa.WetlandIndicator.Upland));

    public static readonly CsvWords<PlantCommunity> PlantCommunity = new(("prairie", Ecology.Taxa.PlantCommunity.Prairie),
        ("savanna", Ecology.Taxa.PlantCommunity.Savanna),
        ("woodland", Ecology.Taxa.PlantCommunity.Woodland), ("wetland", Ecology.Taxa.PlantCommunity.Wetland),
            ("disturbed", Ecology.Taxa.PlantCommunity.Disturbed),
        ("garden", Ecology.Taxa.PlantCommunity.Garden));

    public static readonly CsvWords<ToxicityClass> ToxicityClass = new(("deadly", Ecology.Taxa.ToxicityClass.DeadlyToPeople),
        ("poisonous", Ecology.Taxa.ToxicityClass.PoisonousIfEaten),
        ("skin", Ecology.Taxa.ToxicityClass.HarmsSkinOrEyes), ("animals", Ecology.Taxa.ToxicityClass.HarmsPetsOrStock));
}
