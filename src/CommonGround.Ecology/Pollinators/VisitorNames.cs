namespace CommonGround.Ecology.Pollinators;

/// <summary>What people call the visitors of the record, by genus; the genera stand as Robertson printed them, and some as they are called
/// today.</summary>
/// <remarks>English names from memory; a genus that is not named stays among its group ("other wild bees").</remarks>
public static class VisitorNames
{
    private static readonly Dictionary<string, string> s_names = new(StringComparer.Ordinal)
    {
        ["Bombus"] = "bumblebees",
        ["Bombias"] = "bumblebees",
        ["Andrena"] = "mining bees",
        ["Trachandrena"] = "mining bees",
        ["Opandrena"] = "mining bees",
        ["Pterandrena"] = "mining bees",
        ["Iomelissa"] = "mining bees",
        ["Lasioglossum"] = "sweat bees",
        ["Chloralictus"] = "sweat bees",
        ["Halictus"] = "sweat bees",
        ["Seladonia"] = "sweat bees",
        ["Agapostemon"] = "green sweat bees",
        ["Augochlora"] = "green sweat bees",
        ["Augochlorella"] = "green sweat bees",
        ["Megachile"] = "leafcutter bees",
        ["Melissodes"] = "long-horned bees",
        ["Svastra"] = "long-horned bees",
        ["Eucera"] = "long-horned bees",
        ["Tetralonia"] = "long-horned bees",
        ["Colletes"] = "cellophane bees",
        ["Osmia"] = "mason bees",
        ["Hoplitis"] = "mason bees",
        ["Hylaeus"] = "masked bees",
        ["Prosopis"] = "masked bees",
        ["Ceratina"] = "small carpenter bees",
        ["Xylocopa"] = "carpenter bees",
        ["Anthophora"] = "digger bees",
        ["Nomada"] = "cuckoo bees",
        ["Triepeolus"] = "cuckoo bees",
        ["Epeolus"] = "cuckoo bees",
        ["Coelioxys"] = "cuckoo bees",
        ["Sphecodes"] = "cuckoo bees",
        ["Stelis"] = "cuckoo bees",
        ["Anosia"] = "monarch",
        ["Danaus"] = "monarch",
        ["Vanessa"] = "painted ladies",
        ["Argynnis"] = "fritillaries",
        ["Speyeria"] = "fritillaries",
        ["Euptoieta"] = "fritillaries",
        ["Heraclides"] = "swallowtails",
        ["Jasoniades"] = "swallowtails",
        ["Euphoeades"] = "swallowtails",
        ["Laertias"] = "swallowtails",
        ["Iphiclides"] = "swallowtails",
        ["Papilio"] = "swallowtails",
        ["Eurymus"] = "sulphurs",
        ["Callidryas"] = "sulphurs",
        ["Eurema"] = "sulphurs",
        ["Nathalis"] = "sulphurs",
        ["Junonia"] = "buckeye",
        ["Cercyonis"] = "wood nymph",
        ["Hemaris"] = "clearwing hawk moths",
        ["Chauliognathus"] = "soldier beetles",
        ["Trochilus"] = "ruby-throated hummingbird",
    };

    /// <summary>"bumblebees", "monarch"; null for a genus without a name here.</summary>
    public static string? Of(Visitor visitor)
    {
        ArgumentNullException.ThrowIfNull(visitor);
        return s_names.GetValueOrDefault(visitor.Genus) ?? s_names.GetValueOrDefault(visitor.Name.Split(' ')[0]);
    }
}
