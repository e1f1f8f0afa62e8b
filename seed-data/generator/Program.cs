using CommonGround.DemoData;

// Rewrites seed-data/quarry-bend and seed-data/sycamore-hollow from seed-data/plants.csv; see the READMEs there.
var folder = new DirectoryInfo(AppContext.BaseDirectory);
while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "plants.csv"))) folder = folder.Parent;
if (folder is null)
{
    Console.Error.WriteLine("plants.csv is in no folder above the program.");
    return 1;
}

foreach (var (group, files) in new[] { ("quarry-bend", QuarryBend.Files(File.ReadAllBytes(Path.Combine(folder.FullName, "plants.csv")))),
    ("sycamore-hollow", SycamoreHollow.Files()) })
{
    var target = Directory.CreateDirectory(Path.Combine(folder.FullName, group));
    foreach (var (name, content) in files)
    {
        File.WriteAllBytes(Path.Combine(target.FullName, name), content);
        Console.WriteLine($"{group}/{name}: {content.Length} bytes");
    }
}

return 0;
