using CommonGround.Ecology.Regions;

namespace CommonGround.Web.Hosting;

/// <summary>An invented neighbourhood that comes with the program.</summary>
/// <param name="Folder">Its folder in seed-data.</param>
/// <param name="Name">As its people call it.</param>
/// <param name="Place">Where it is.</param>
/// <param name="MembersYards">The yards of the demo's member.</param>
public sealed record DemoGroup(string Folder, string Name, Locality Place, IReadOnlyList<string> MembersYards)
{
    /// <summary>A whole suburb in northern Illinois.</summary>
    public static DemoGroup QuarryBend { get; } = new("quarry-bend", "Quarry Bend", new("IL", 41.87, -88.56, 240), ["LA-07", "KI-05"]);

    /// <summary>A small group in south-western Missouri.</summary>
    public static DemoGroup SycamoreHollow { get; } = new("sycamore-hollow", "Sycamore Hollow", new("MO", 37.21, -93.29, 396),
        ["JU-01", "LI-02"]);

    public static IReadOnlyList<DemoGroup> All { get; } = [QuarryBend, SycamoreHollow];

    public static DemoGroup? Find(string folder) => All.FirstOrDefault(d => d.Folder.Equals(folder, StringComparison.OrdinalIgnoreCase));
}
