namespace CommonGround.Ecology.Taxa;

/// <summary>How a grown plant is built, as a gardener sees it: one row of seed-data/characters.csv. Drawings and identification read the
/// same row.</summary>
/// <remarks>Sizes in centimetres of a usual grown plant; half-months 0–23, both ends included. The words of each column and their meaning
/// stand in seed-data/README.md.</remarks>
public sealed record Characters
{
    /// <summary>Accepted name, as in the catalogue.</summary>
    public required string ScientificName { get; init; }

    /// <summary>The usual English name.</summary>
    public required string CommonName { get; init; }

    /// <summary>How it stands: tuft, sod, clump, single, scape, mat, fern, vine, shrub, tree, conifer.</summary>
    public required string Form { get; init; }

    /// <summary>Height in flower, cm, above 0.</summary>
    public double HeightCm { get; init; }

    /// <summary>Width of a grown plant, cm, above 0.</summary>
    public double SpreadCm { get; init; }

    /// <summary>Flowering stems or culms in the third year, 1 or more; limbs of a woody plant.</summary>
    public int Stems { get; init; }

    /// <summary>erect, arching or leaning.</summary>
    public required string Habit { get; init; }

    /// <summary>Whether the stems branch below the flowers.</summary>
    public bool Branched { get; init; }

    /// <summary>basal, alternate, opposite or whorled.</summary>
    public required string LeafPlace { get; init; }

    /// <summary>Leaves at each node of a whorled stem; 0 for other placings.</summary>
    public int LeavesPerNode { get; init; }

    /// <summary>Nodes on a stem, or leaves at the ground where <see cref="LeafPlace"/> is basal.</summary>
    public int Nodes { get; init; }

    /// <summary>Whether leaves also lie at the ground.</summary>
    public bool Rosette { get; init; }

    /// <summary>Outline of the blade, or how it is divided.</summary>
    public required string LeafShape { get; init; }

    /// <summary>Pairs of leaflets, or lobes a side; 0 for an undivided blade.</summary>
    public int Leaflets { get; init; }

    /// <summary>Length of the lowest stem leaf, cm.</summary>
    public double LeafLengthCm { get; init; }

    /// <summary>Width of the lowest stem leaf, cm.</summary>
    public double LeafWidthCm { get; init; }

    /// <summary>entire, toothed, lobed or spiny.</summary>
    public required string LeafEdge { get; init; }

    /// <summary>Size of the top leaf to the lowest, 0–1.</summary>
    public double LeafTaper { get; init; }

    /// <summary>Where the flowers stand; none for ferns and conifers.</summary>
    public required string Inflorescence { get; init; }

    /// <summary>Length of the whole stand of flowers of one stem, cm.</summary>
    public double InflorescenceLengthCm { get; init; }

    /// <summary>Width of the whole stand of flowers of one stem, cm.</summary>
    public double InflorescenceWidthCm { get; init; }

    /// <summary>Flowers or heads a stem.</summary>
    public int FlowersPerStem { get; init; }

    /// <summary>What one flower or head is.</summary>
    public required string Flower { get; init; }

    /// <summary>Width of one flower or head, cm.</summary>
    public double FlowerWidthCm { get; init; }

    /// <summary>Rays or petals; 0 where they are not counted.</summary>
    public int Rays { get; init; }

    /// <summary>rounded, pointed or notched.</summary>
    public required string RayTip { get; init; }

    /// <summary>How far the rays hang, degrees below level, −60 to 90.</summary>
    public double RayDroopDegrees { get; init; }

    /// <summary>Colour of the flower, as in the catalogue; of the heads for grasses.</summary>
    public required string FlowerColour { get; init; }

    /// <summary>Colour of the middle.</summary>
    public required string CentreColour { get; init; }

    /// <summary>What stands after the flower.</summary>
    public required string SeedHead { get; init; }

    /// <summary>Colour of ripe fruit or seed heads.</summary>
    public required string SeedColour { get; init; }

    /// <summary>What winter leaves: stand, fountain, collapse, evergreen, bare or gone.</summary>
    public required string Winter { get; init; }

    /// <summary>Colour of dry blades: straw, copper or amber.</summary>
    public required string DryColour { get; init; }

    /// <summary>Half-month of the first green.</summary>
    public int Emerges { get; init; }

    /// <summary>First half-month in flower (of the heads for grasses).</summary>
    public int BloomFrom { get; init; }

    /// <summary>Last half-month in flower.</summary>
    public int BloomTo { get; init; }

    /// <summary>Half-month from which nothing is green.</summary>
    public int DiesBack { get; init; }

    /// <summary>Size in the first year to that of the third, 0–1.</summary>
    public double FirstYearSize { get; init; }

    /// <summary>Whether it flowers in its first year.</summary>
    public bool FirstYearFlowers { get; init; }

    /// <summary>Where the row comes from.</summary>
    public required string Source { get; init; }

    /// <summary>Grasses, sedges and rushes: blades and culms.</summary>
    public bool HasBlades => Form is "tuft" or "sod";

    /// <summary>Flowers sit on the ground and the leaves come after them.</summary>
    public bool FlowersAtTheGround => Inflorescence == "ground";

    /// <summary>The half-month in which it is as tall as its row says: in flower, or in full leaf where the flower is not what is
    /// tall.</summary>
    public int TallestIn => Inflorescence == "none" ? 13 : FlowersAtTheGround ? Math.Min(DiesBack - 4, 11) : (BloomFrom + BloomTo) / 2;

    /// <summary>Whether it has stems of wood that stay.</summary>
    public bool IsWoody => Form is "shrub" or "tree" or "conifer";
}
