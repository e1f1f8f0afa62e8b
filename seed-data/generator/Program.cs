using CommonGround.DemoData;

// Rewrites seed-data/quarry-bend from seed-data/plants.csv; see the README there.
var folder = new DirectoryInfo(AppContext.BaseDirectory);
while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "plants.csv"))) folder = folder.Parent;
if (folder is null)
{
    Console.Error.WriteLine("plants.csv is in no folder above the program.");
    return 1;
}
var target = Directory.CreateDirectory(Path.Combine(folder.FullName, "quarry-bend"));
foreach (var (name, content) in QuarryBend.Files(File.ReadAllBytes(Path.Combine(folder.FullName, "plants.csv"))))
{
    File.WriteAllBytes(Path.Combine(target.FullName, name), content);
    Console.WriteLine($"{name}: {content.Length} bytes");
}
return 0;
