using CommonGround.Ecology.Taxa;

namespace CommonGround.Ecology.Identification;

/// <summary>Field characters read out of what the catalogue and the table of drawing characters already say of a taxon, so that no fact
/// is kept twice.</summary>
public static class DrawnCells
{
    /// <summary>The states of a taxon for each character that can be told; a character that cannot is left out.</summary>
    /// <param name="taxon">Height, place, colour and life form come from the catalogue.</param>
    /// <param name="drawn">Its row of characters, if it has one.</param>
    /// <returns>Character ids with the ids of one or more states; see seed-data/field-states.csv.</returns>
    public static IReadOnlyDictionary<string, IReadOnlyList<string>> Of(CatalogueTaxon taxon, Characters? drawn)
    {
        ArgumentNullException.ThrowIfNull(taxon);
        var cells = new Dictionary<string, IReadOnlyList<string>>(StringComparer.Ordinal);
        Put(cells, "height", Heights(taxon));
        Put(cells, "place", [.. taxon.Communities.Select(c => c.ToString().ToLowerInvariant())]);
        Put(cells, "life", Life(taxon.LifeForm, drawn?.Form));
        if (taxon.FlowerColour.Length > 0)
        {
            Put(cells, "flower_colour", [Colour(taxon.FlowerColour)]);
        }

        if (drawn is not null)
        {
            Leaves(cells, drawn);
            Flowers(cells, drawn);
        }

        return cells;
    }

    private static void Leaves(Dictionary<string, IReadOnlyList<string>> cells, Characters drawn)
    {
        Put(cells, "leaf_place", [drawn.LeafPlace]);
        Put(cells, "leaf_shape", Shape(drawn.LeafShape));
        Put(cells, "leaf_edge", [drawn.LeafEdge]);
        Put(cells, "leaf_length", [drawn.LeafLengthCm switch { < 3 => "small", < 10 => "medium", <= 30 => "long", _ => "huge" }]);
        Put(cells, "rosette", [drawn.Rosette ? "yes" : "no"]);
        Put(cells, "branching", [drawn.Branched ? "yes" : "no"]);
        Put(cells, "winter", drawn.Winter switch
        {
            "stand" or "fountain" => ["stand"],
            "bare" => ["wood"],
            "evergreen" => ["green"],
            _ => ["gone"],
        });
        Put(cells, "fruit", Fruit(drawn.SeedHead));
    }

    private static void Flowers(Dictionary<string, IReadOnlyList<string>> cells, Characters drawn)
    {
        Put(cells, "inflorescence", Stand(drawn.Inflorescence));
        Put(cells, "flower_form", Form(drawn.Flower));
        if (drawn.Flower is "none")
        {
            return;
        }

        Put(cells, "flower_width", [drawn.FlowerWidthCm switch { < 0.5 => "tiny", < 1.5 => "small", < 4 => "medium", _ => "large" }]);
        if (drawn.Flower is not "ray")
        {
            return;
        }

        Put(cells, "ray_number", [drawn.Rays switch { <= 7 => "few", <= 13 => "eight", <= 21 => "more", _ => "many" }]);
        Put(cells, "ray_tip", [drawn.RayTip]);
        Put(cells, "ray_droop", [drawn.RayDroopDegrees >= 15 ? "yes" : "no"]);
        Put(cells, "disk_colour", drawn.CentreColour switch
        {
            "yellow" or "straw" => ["yellow"],
            "brown" or "dark" or "purple" or "red" => ["brown"],
            "green" or "orange" or "white" => [drawn.CentreColour],
            _ => [],
        });
    }

    private static void Put(Dictionary<string, IReadOnlyList<string>> cells, string character, IReadOnlyList<string> states)
    {
        if (states.Count > 0)
        {
            cells[character] = states;
        }
    }

    /// <summary>Every class that the usual heights of grown plants reach into; a lone figure is taken as a quarter more or less.</summary>
    private static string[] Heights(CatalogueTaxon taxon)
    {
        if (taxon.HeightMaxMetres is not { } most)
        {
            return [];
        }

        var least = taxon.HeightMinMetres ?? most * 0.75;
        most = Math.Max(most, taxon.HeightSecondMetres ?? 0);
        (string State, double From, double To)[] classes =
            [("ankle", 0, 0.3), ("knee", 0.3, 0.6), ("hip", 0.6, 1.2), ("head", 1.2, 2), ("above", 2, double.PositiveInfinity)];
        return [.. classes.Where(c => least < c.To && most >= c.From && (most > c.From || least == most)).Select(c => c.State)];
    }

    private static string[] Life(LifeForm form, string? drawn) => form switch
    {
        LifeForm.Forb or LifeForm.Legume => [drawn is "vine" ? "vine" : drawn is "shrub" ? "shrub" : "herb"],
        LifeForm.Grass or LifeForm.Turf => ["grass"],
        LifeForm.Sedge => ["sedge"],
        LifeForm.Unknown => [],
        _ => [form.ToString().ToLowerInvariant()],
    };

    private static string Colour(string colour) => colour is "straw" ? "brown" : colour;

    private static string[] Shape(string shape) => shape switch
    {
        "blade" or "strap" or "sword" => ["grasslike"],
        "linear" => ["linear"],
        "lanceolate" => ["lance"],
        "elliptic" or "ovate" or "oblong" => ["oval"],
        "obovate" or "spatulate" => ["spoon"],
        "cordate" or "kidney" or "round" => ["heart"],
        "arrow" => ["arrow"],
        "lobed" or "pinnatifid" or "trident" => ["lobed"],
        "trifoliate" => ["three"],
        "ternate" => ["three", "lacy"],
        "pinnate" => ["feather"],
        "palmate" => ["hand"],
        "lacy" => ["lacy"],
        "perfoliate" => ["joined"],
        "frond" or "frond2" => ["frond"],
        _ => [],
    };

    private static string[] Stand(string stand) => stand switch
    {
        "solitary" => ["single"],
        "few" or "nod" or "irises" => ["few"],
        "corymb" => ["flat"],
        "compoundumbel" or "umbels" or "axilumbels" or "umbelnod" => ["umbel"],
        "spike" or "sedgespike" or "cattail" or "foxtail" or "foxtailnod" or "nodspike" => ["spike"],
        "raceme" or "nodraceme" or "racemes" => ["raceme"],
        "panicle" or "pyramid" or "plume" or "grassplume" or "openpanicle" or "spray" => ["panicle"],
        "sideraceme" or "onesided" => ["onesided"],
        "balls" or "buttons" or "dome" or "thimbles" => ["ball"],
        "turkeyfoot" => ["foot"],
        "candelabra" => ["candelabra"],
        "none" => ["none"],
        _ => [],
    };

    private static string[] Form(string flower) => flower switch
    {
        "ray" => ["daisy"],
        "button" or "whitebutton" or "shag" => ["button"],
        "thistle" => ["thistle"],
        "salver" => ["star"],
        "bell" or "tube" or "trumpet" or "bottle" => ["bell"],
        "lip" or "mint" or "monarda" => ["lips"],
        "pea" => ["pea"],
        "milkweed" => ["milkweed"],
        "violet" => ["violet"],
        "three" or "iris" or "onion" => ["three", "star"],
        "columbine" or "spathe" => ["spurred"],
        "grain" or "oat" or "spikelet" or "awn" or "egg" => ["spikelet"],
        "none" => ["none"],
        "small" or "fuzz" or "dense" or "catkin" or "ball" or "globe" or "thimble" => ["small"],
        _ => [],
    };

    private static string[] Fruit(string head) => head switch
    {
        "fluff" or "puff" or "plumes" or "pompon" => ["fluff"],
        "pod" or "bigpod" or "indigo" or "bean" or "silique" or "follicle" => ["pod"],
        "capsule" or "bigcapsule" or "umbelcaps" or "beak" => ["capsule"],
        "berry" => ["berry"],
        "nut" => ["nut"],
        "samara" => ["wings"],
        "bur" => ["bur"],
        "cone" or "disk" or "globe" or "button" or "thimble" => ["head"],
        "umbelseed" => ["umbel"],
        "grainspike" or "spikelet" or "grain" or "oat" or "awn" or "egg" => ["grain"],
        _ => [],
    };
}
