using System.Globalization;
using CommonGround.Ecology.Taxa;

namespace CommonGround.Web.Features.Plants;

/// <summary>The telling marks of a plant in words, from the row that its drawing is made from.</summary>
public static class MarkWords
{
    public static string Of(Characters row, string mark, bool feet)
    {
        ArgumentNullException.ThrowIfNull(row);
        return mark switch
        {
            "leaf" when row.HasBlades => $"Blades about {Size(row.LeafLengthCm, feet)} long, {Size(row.LeafWidthCm, feet)} wide.",
            "leaf" => $"{Placed(row)}, {Shape(row)}{Edge(row)}, about {Size(row.LeafLengthCm, feet)} long, {Size(row.LeafWidthCm, feet)} "
                + $"wide.",
            "flower" when row.HasBlades => $"Heads about {Size(row.InflorescenceLengthCm, feet)} long, {Colour(row.FlowerColour)}.",
            "flower" => $"{Stand(row)}, {Colour(row.FlowerColour)}{(row.Rays > 0 ? $", {row.Rays.ToString(CultureInfo.InvariantCulture)} {(row.Flower == "ray" ? "rays" : "petals")}" : "")}, each about {Size(row.FlowerWidthCm, feet)} across.",
            _ => $"Seed and fruit {Colour(row.SeedColour)} when ripe.",
        };
    }

    /// <summary>Heading of a mark.</summary>
    public static string Title(Characters row, string mark) => mark switch
    {
        "leaf" => row.HasBlades ? "Blade" : "Leaf",
        "flower" => row.HasBlades ? "Head" : "Flower",
        _ => "Seed",
    };

    private static string Size(double cm, bool feet) => feet
        ? (cm / 2.54).ToString(cm < 5 ? "0.0" : "0", CultureInfo.InvariantCulture) + " in"
        : cm.ToString(cm < 2 ? "0.0" : "0", CultureInfo.InvariantCulture) + " cm";

    private static string Placed(Characters row) => row.LeafPlace switch
    {
        "basal" => "At the ground",
        "opposite" => "Opposite",
        "whorled" => "In whorls",
        _ => "Alternate",
    };

    private static string Shape(Characters row) => row.LeafShape switch
    {
        "pinnate" => "feathered leaflets",
        "trifoliate" => "three leaflets",
        "trident" => "three narrow leaflets",
        "ternate" => row.Leaflets == 3 ? "three leaflets" : "three times three leaflets",
        "palmate" => "leaflets like a hand",
        "pinnatifid" => "deeply cut",
        "perfoliate" => "joined round the stem",
        "lobed" => "lobed",
        "frond" => "a frond, once cut",
        "frond2" => "a frond, twice cut",
        "lacy" => "finely cut",
        "pad" => "flat joints in place of leaves",
        "cordate" => "heart-shaped",
        "linear" or "blade" => "narrow",
        "strap" => "strap-shaped",
        "sword" => "sword-shaped",
        "lanceolate" => "lance-shaped",
        "ovate" => "egg-shaped",
        "obovate" or "spatulate" => "wider above",
        "arrow" => "arrow-shaped",
        "kidney" => "kidney-shaped",
        var shape => shape,
    };

    private static string Edge(Characters row) => row.LeafEdge switch { "toothed" => ", toothed", "spiny" => ", spiny", _ => "" };

    private static string Stand(Characters row) => row.FlowersAtTheGround ? "On the ground, before the leaves"
        : row.FlowersPerStem == 1 ? "One flower a stem" : row.Inflorescence switch
        {
            "corymb" => "In a flat top",
            "spike" or "raceme" or "sideraceme" or "nodraceme" or "candelabra" or "tubes" or "buttons" => "In a spike",
            "umbels" or "axilumbels" or "compoundumbel" or "umbelnod" => "In umbels",
            "panicle" or "pyramid" or "plume" => "In a panicle",
            _ => "Several flowers a stem",
        };

    private static string Colour(string colour) => colour == "green" ? "greenish" : colour;
}
